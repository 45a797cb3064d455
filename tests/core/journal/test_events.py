"""Any history folds the same whole or in parts, and what is taken back stays taken back."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.core.journal.event_document import event_from_document, event_to_document
from companion.core.journal.events import (
    NOT_BEGUN,
    Abandoned,
    Confirmed,
    CutEntered,
    Finished,
    Jumped,
    Measured,
    Noted,
    NotPossible,
    Started,
    Undone,
    Withdrawn,
    after,
    fold,
    undo_of,
)

TOTAL = 30


def history(seed: int, length: int) -> list:
    """A history that a maker could make: each event follows from those before it."""
    draw = random.Random(seed)
    events, piece = [Started(TOTAL)], after(NOT_BEGUN, Started(TOTAL))
    while len(events) < length:
        choice = draw.choice(
            ["confirm"] * 6 + ["undo", "undo", "jump", "measure", "free", "note", "cut", "withdraw", "end"]
        )
        event = {
            "confirm": Confirmed(piece.done + 1),
            "jump": Jumped(draw.randint(0, TOTAL)),
            "measure": Measured("strand", draw.randint(0, piece.done), draw.uniform(1, 200), "x"),
            "free": Measured("free", piece.done, draw.uniform(1, 900), "y", 1.5875),
            "note": Noted(piece.done, "looser"),
            "cut": CutEntered(draw.randint(0, 2), draw.uniform(500, 2000), "z"),
            "withdraw": Withdrawn(),
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
@settings(max_examples=150, deadline=None)
def test_whole_or_in_parts(seed: int, length: int, data) -> None:
    events = history(seed, length)
    whole = fold(events)
    cut = data.draw(st.integers(0, len(events)))
    assert fold(events[cut:], fold(events[:cut])) == whole
    documents = [event_to_document(event) for event in events]
    assert fold(event_from_document(kind, values) for kind, values in documents) == whole
    assert 0 <= whole.done <= TOTAL
    assert all(reading.step <= whole.done for reading in whole.readings)


@given(st.integers(0, 10**6), st.integers(2, 60))
@settings(max_examples=100, deadline=None)
def test_the_count_a_second_way(seed: int, length: int) -> None:
    """A plain stack of counts, as a person would keep it on paper."""
    counts, ended = [0], None
    events = history(seed, length)
    for event in events:
        match event:
            case Confirmed() | Jumped():
                counts.append(counts[-1] + 1 if isinstance(event, Confirmed) else event.to)
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
@settings(max_examples=100, deadline=None)
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


def test_an_undo_of_another_state_is_refused() -> None:
    piece = fold([Started(9), Confirmed(1), Confirmed(2)])
    with pytest.raises(NotPossible, match="moved on"):
        after(piece, Undone(0))


def test_an_unknown_event_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="does not know"):
        event_from_document("embroidered", {})
    with pytest.raises(ValueError, match="does not know"):
        event_from_document("confirmed", {"stitch": 3})
