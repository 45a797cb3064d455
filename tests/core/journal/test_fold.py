"""Any history folds the same whole or in parts; what is taken back stays so, and a jump undone has never been."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.journal.event_document import event_from_document, event_to_document
from companion.core.journal.events import (
    NOWHERE,
    Abandoned,
    Changed,
    Confirmed,
    CutEntered,
    Finished,
    Joined,
    Jumped,
    Measured,
    Noted,
    PutBack,
    Recounted,
    Started,
    TakenOut,
    Undone,
    UndoneAct,
    Withdrawn,
)
from companion.core.journal.fold import after, fold, undo_of
from companion.core.journal.piece import NOT_BEGUN
from companion.core.values.errors import NotPossible

TOTAL = 30


def turned(piece, kind, draw: random.Random) -> TakenOut | PutBack:
    """Any of the readings taken out or put back; it may be so already, and then the event does not follow."""
    readings = [(number, one.measured) for number, one in enumerate(piece.all_readings, start=1)]
    return kind(*draw.choice(readings or [(1, Measured("strand", 0, 1.0, ""))]))


def history(seed: int, length: int) -> list:
    """A history that a maker could make: each event follows from those before it."""
    draw = random.Random(seed)
    events, piece = [Started(TOTAL)], after(NOT_BEGUN, Started(TOTAL))
    while len(events) < length:
        choice = draw.choice(
            ["confirm"] * 6
            + ["undo", "undo", "jump", "jump", "measure", "measure", "free", "count", "right", "join", "change"]
            + ["note", "cut", "withdraw", "end", "out", "out", "back"]
        )
        last = draw.randint(0, piece.done)
        event = {
            "confirm": Confirmed(piece.done + 1),
            "jump": Jumped(draw.randint(0, piece.total_steps)),
            "measure": Measured("strand", draw.randint(0, piece.done), draw.uniform(1, 200), str(len(events))),
            "free": Measured("free", piece.done, draw.uniform(1, 900), str(len(events)), 1.5875),
            "count": Recounted(last, draw.randint(0, max(0, last - 1)), draw.randint(-1, 1)),
            "right": Recounted(piece.done),
            "join": Joined(piece.done, 250.0, "25 cm"),
            "change": Changed(0, piece.done, ("=g",), 0.0, draw.randint(piece.done, piece.total_steps + 2), "shorter"),
            "note": Noted(piece.done, "looser"),
            "cut": CutEntered(draw.randint(0, 2), draw.uniform(500, 2000), "z"),
            "withdraw": Withdrawn(),
            "out": turned(piece, TakenOut, draw),
            "back": turned(piece, PutBack, draw),
            "end": draw.choice([Finished(200.0), Finished(), Abandoned("tired")]),
            "undo": None,
        }[choice]
        try:
            event = undo_of(piece) if event is None else event
            piece = after(piece, event)
        except NotPossible:
            continue
        events.append(event)
    return events


@given(st.integers(0, 10**6), st.integers(2, 80), st.data())
def test_whole_or_in_parts(seed: int, length: int, data) -> None:
    events = history(seed, length)
    whole = fold(events)
    cut = data.draw(st.integers(0, len(events)))
    assert fold(events[cut:], fold(events[:cut])) == whole
    documents = [event_to_document(event) for event in events]
    assert fold(event_from_document(kind, values) for kind, values in documents) == whole
    assert 0 <= whole.done <= whole.total_steps
    assert all(one.measured.step <= whole.done for one in whole.all_readings)
    assert whole.readings == tuple(one.measured for one in whole.all_readings if one.counts)


@given(st.integers(0, 10**6), st.integers(2, 60))
def test_the_count_a_second_way(seed: int, length: int) -> None:
    """A plain stack of counts, as a person would keep it on paper."""
    counts, ended = [0], None
    events = history(seed, length)
    for event in events:
        match event:
            case Confirmed() | Jumped() | Joined() | Changed():
                step = counts[-1] + 1 if isinstance(event, Confirmed) else counts[-1]
                counts.append(event.to if isinstance(event, Jumped) else step)
            case Undone():
                if ended is not None:
                    ended = None
                else:
                    counts.pop()
            case Finished() | Abandoned():
                ended = event
    piece = fold(events)
    assert piece.done == counts[-1]
    assert (piece.state == "under way") == (ended is None)


@given(st.integers(0, 10**6), st.integers(2, 60))
def test_undo_all_the_way_leads_to_the_beginning(seed: int, length: int) -> None:
    piece = fold(history(seed, length))
    for _ in range(10_000):
        try:
            piece = after(piece, undo_of(piece))
        except NotPossible:
            break
    assert (piece.done, piece.state) == (0, "under way")


def test_a_step_can_not_be_counted_twice_or_left_out() -> None:
    piece = fold([Started(3), Confirmed(1)])
    for step in (0, 1, 3):
        with pytest.raises(NotPossible):
            after(piece, Confirmed(step))
    assert fold([Confirmed(2), Confirmed(3)], piece).done == 3
    with pytest.raises(NotPossible):
        fold([Confirmed(2), Confirmed(3), Confirmed(4)], piece)


def test_a_reading_goes_with_its_step_and_comes_back_with_its_jump() -> None:
    reading = Measured("strand", 4, 30.0, "30 mm")
    piece = fold([Started(9), *(Confirmed(n) for n in range(1, 6)), reading])
    assert fold([Undone(4)], piece).readings == (reading,)
    assert fold([Undone(4), Undone(3)], piece).readings == ()
    again = fold([Undone(4), Undone(3), Confirmed(4)], piece)
    assert again.readings == ()  # the count may have been wrong when it was taken
    jumped = fold([Jumped(2)], piece)
    assert jumped.readings == ()
    back = after(jumped, undo_of(jumped))
    assert (back.done, back.readings) == (5, (reading,))


@given(st.integers(0, 10**6), st.integers(2, 120), st.data())
def test_a_jump_that_is_undone_leaves_the_piece_as_it_was(seed: int, length: int, data) -> None:
    piece = fold(history(seed, length))
    if piece.state != "under way":
        piece = after(piece, undo_of(piece))
    jumped = after(piece, Jumped(data.draw(st.integers(0, piece.total_steps))))
    assert after(jumped, undo_of(jumped)) == piece


@given(st.integers(0, 10**6), st.integers(2, 120))
def test_readings_stand_in_the_order_in_which_they_were_taken(seed: int, length: int) -> None:
    """Each is typed as the number of its event. So the one that is withdrawn is the latest that counts, and the one
    that is put back counts again where it did."""
    piece = fold(history(seed, length))
    for readings in (piece.readings, [one.measured for one in piece.all_readings]):
        taken = [int(reading.typed) for reading in readings]
        assert taken == sorted(taken)


@given(st.integers(0, 10**6), st.integers(2, 120))
def test_the_readings_that_count_a_second_way(seed: int, length: int) -> None:
    """A slip of paper for each reading: turned over while it is taken out, and laid away for as long as the jump that
    it bears the number of."""
    slips: list[list] = []  # [reading, number of the jump that put it aside or None, whether it counts]
    moves: list[tuple] = []  # (number of the event, where the piece stood before it, whether it is one of the count)
    done, ended = 0, False
    for number, event in enumerate(history(seed, length)):
        match event:
            case Confirmed() | Jumped():
                moves.append((number, done, True))
                done = event.to if isinstance(event, Jumped) else event.step
                for slip in slips:
                    if slip[1] is None and slip[0].step > done:
                        slip[1] = number
            case Joined() | Changed():
                moves.append((number, done, False))
            case Measured():
                slips.append([event, None, True])
            case Withdrawn():
                next(slip for slip in reversed(slips) if slip[1] is None and slip[2])[2] = False
            case TakenOut(number=place) | PutBack(number=place):
                [slip for slip in slips if slip[1] is None][place - 1][2] = isinstance(event, PutBack)
            case Finished() | Abandoned():
                ended = True
            case Undone() if ended:
                ended = False
            case Undone():
                undone, done, counts = moves.pop()
                if counts:
                    slips = [slip for slip in slips if slip[1] is not None or slip[0].step <= done]
                    slips = [[reading, None if jump == undone else jump, on] for reading, jump, on in slips]
    piece = fold(history(seed, length))
    assert piece.readings == tuple(reading for reading, jump, counts in slips if jump is None and counts)
    assert len(piece.all_readings) == sum(jump is None for _, jump, _ in slips)


def test_after_an_undone_jump_the_latest_reading_is_withdrawn() -> None:
    early, late = Measured("strand", 8, 60.0, "early"), Measured("strand", 3, 22.0, "late")
    events = [Started(9), *(Confirmed(n) for n in range(1, 9)), early, Jumped(4), late, Undone(8)]
    piece = fold(events)
    assert piece.readings == (early, late)
    assert after(piece, Withdrawn()).readings == (early,)


def test_an_undone_jump_brings_back_what_was_counted() -> None:
    right, wrong, other = Recounted(6), Recounted(8, 6, -1), Recounted(3, 1, 1)
    piece = fold([Started(9), *(Confirmed(n) for n in range(1, 9)), right, wrong])
    jumped = after(piece, Jumped(4))
    assert jumped.counted == (Recounted(4),)
    assert fold([Undone(8)], jumped).counted == (right, wrong)
    assert fold([other, Undone(8)], jumped).counted == (right, wrong, other)


def test_a_count_of_the_steps_that_a_jump_left_stands_after_its_undoing() -> None:
    """What was counted since is newer than what comes back."""
    piece = fold([Started(9), *(Confirmed(n) for n in range(1, 9)), Recounted(3), Recounted(8, 5, -1), Jumped(4)])
    since = fold([Recounted(4, 0, -1), Undone(8)], piece)
    assert since.counted == (Recounted(8, 5, -1), Recounted(4, 0, -1))


def test_a_screen_set_right_moves_what_was_read_joined_and_counted_since() -> None:
    """The screen was a step ahead since somewhere in steps 3 to 6: the reading after step 8 was really taken after 7.
    One that fits no step is put aside; what is undone comes back as it was."""
    readings = [Measured("strand", step, 8.0 * step, str(step)) for step in (2, 6, 8)]
    counts = [Recounted(2), Recounted(8, 6)]
    events = [*(Confirmed(n) for n in range(1, 9)), *readings, Joined(8, 300.0, "30 cm"), *counts]
    piece = fold([Started(9), *events])
    really = after(piece, Jumped(7, ((6, NOWHERE), (8, 7)), (2, 5)))
    assert really.done == 7
    assert [(one.step, one.typed) for one in really.readings] == [(2, "2"), (7, "8")]
    assert [(join.step, [one.step for one in join.before]) for join in really.joins] == [(7, [7])]
    assert really.counted == (Recounted(2), Recounted(5, 2))
    assert after(really, UndoneAct()) == piece


def test_a_later_count_moves_with_its_steps() -> None:
    piece = fold([Started(9), *(Confirmed(n) for n in range(1, 9)), Recounted(8, 6), Recounted(6, 1)])
    really = after(piece, Jumped(7, ((6, 5), (8, 7)), (2, 5)))
    assert really.counted == (Recounted(5, 2), Recounted(7, 5))  # the one over the counted steps is replaced


@pytest.mark.parametrize(
    "wrong", [Jumped(-1), Jumped(10), Jumped(4, ((5, 10),)), Jumped(4, (), (4, 4)), Jumped(4, (), (2, 5))]
)
def test_a_screen_that_cannot_be_set_so_is_refused(wrong) -> None:
    with pytest.raises(NotPossible):
        after(fold([Started(9), *(Confirmed(n) for n in range(1, 6))]), wrong)


def test_earlier_versions_never_saw_a_screen_set_right() -> None:
    piece = fold([Started(9), *(Confirmed(n) for n in range(1, 6)), Jumped(4, ((5, 4),), None)])
    with pytest.raises(NotPossible, match="Earlier versions"):
        after(piece, Undone(5))


def test_an_undo_of_another_state_is_refused() -> None:
    piece = fold([Started(9), Confirmed(1), Confirmed(2)])
    with pytest.raises(NotPossible, match="has changed"):
        after(piece, Undone(0))


def test_an_unknown_event_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="does not know"):
        event_from_document("embroidered", {})
    with pytest.raises(ValueError, match="does not know"):
        event_from_document("confirmed", {"stitch": 3})


def test_cord_joined_on_is_taken_back_like_a_step() -> None:
    piece = fold([Started(TOTAL), *(Confirmed(n) for n in range(1, 16))])
    joined = fold([Joined(15, 250.0, ""), Confirmed(16)], piece)
    once = after(joined, undo_of(joined))
    assert (once.done, len(once.joins)) == (15, 1)
    twice = after(once, undo_of(once))
    assert (twice.done, twice.joins) == (15, ())
    assert after(twice, undo_of(twice)).done == 14
    with pytest.raises(NotPossible):
        after(piece, Joined(3, 250.0, ""))
