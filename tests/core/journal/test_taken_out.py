"""Readings taken out and put back: in whatever order, what counts in the end counts as if nothing had been done."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import (
    Abandoned,
    Confirmed,
    Joined,
    Jumped,
    Measured,
    PutBack,
    RedoneAct,
    Started,
    TakenOut,
    Undone,
    UndoneAct,
    Withdrawn,
)
from companion.core.journal.fold import after, fold
from companion.core.values.errors import NotPossible
from tests.core.forecast.test_counting import plan_of
from tests.examples import few_examples

PLAN = plan_of(30)
TOTAL = PLAN.total_steps
EARLY, SLIP, CORD, LATE = (
    Measured("strand", 8, PLAN.strands[0].steps[7].strand_mm, "early"),
    Measured("strand", 12, PLAN.strands[0].steps[11].strand_mm - 25.0, "slip"),
    Measured("free", 12, 430.0, "cord"),
    Measured("strand", 16, PLAN.strands[0].steps[15].strand_mm + 1.0, "late"),
)
# Cord is joined on between two readings of one step: what it is added to hangs on which of them was there before.
PLAYED = [Started(TOTAL), Jumped(12), EARLY, SLIP, Joined(12, 120.0, "12 cm"), CORD, Jumped(16), LATE]


def turned(piece, number: int) -> TakenOut | PutBack:
    """That reading (from 0) taken out, or put back."""
    one = piece.all_readings[number]
    return (TakenOut if one.counts else PutBack)(number + 1, one.measured)


def with_turns(events, turns: list[tuple[int, int]]) -> tuple[list, set[int]]:
    """These events, with readings turned between them: each turn after event `at`, of the reading of that number among
    those there are by then. And the readings that are out in the end."""
    played, piece, out = [], fold([]), set()
    for place, event in enumerate(events):
        played.append(event)
        piece = after(piece, event)
        for at, which in turns:
            if at == place and piece.all_readings:
                number = which % len(piece.all_readings)
                played.append(turned(piece, number))
                piece = after(piece, played[-1])
                out ^= {number}
    return played, out


TURNS = st.lists(st.tuples(st.integers(2, len(PLAYED) - 1), st.integers(0, 3)), max_size=12)


@few_examples
@given(TURNS)
def test_all_put_back_is_as_never_taken_out(turns) -> None:
    played, out = with_turns(PLAYED, turns)
    piece = fold(played)
    for number in sorted(out):
        piece = after(piece, turned(piece, number))
    never = fold(PLAYED)
    assert piece == never
    assert Forecaster(PLAN, faults=True).outlook(piece) == Forecaster(PLAN, faults=True).outlook(never)


@few_examples
@given(TURNS)
def test_what_is_out_counts_as_if_it_had_not_been_taken(turns) -> None:
    """But for the join, which knows what was read before it, also of what is put back later."""
    played, out = with_turns(PLAYED, turns)
    taken = [event for event in PLAYED if isinstance(event, Measured)]
    without = fold(event for event in PLAYED if event not in [taken[number] for number in out])
    piece = fold(played)
    assert piece.readings == without.readings
    assert Forecaster(PLAN, faults=True).outlook(piece) == Forecaster(PLAN, faults=True).outlook(without)


def test_the_order_in_which_it_is_done_makes_no_difference_to_a_forecaster_that_has_seen_it_all() -> None:
    """What a forecaster keeps from one look to the next never tells in what it says."""
    used, piece = Forecaster(PLAN, faults=True), fold(PLAYED)
    for number in (1, 3, 0, 1, 2, 0, 3, 2):
        piece = after(piece, turned(piece, number))
        assert used.outlook(piece) == Forecaster(PLAN, faults=True).outlook(piece)
    assert piece == fold(PLAYED)


def test_withdrawing_is_taking_out_the_latest_that_counts() -> None:
    piece = fold([*PLAYED, TakenOut(4, LATE)])
    assert after(piece, Withdrawn()) == after(piece, TakenOut(3, CORD))
    assert fold([Withdrawn(), Withdrawn(), Withdrawn()], piece).readings == ()
    with pytest.raises(NotPossible, match="no reading to take out"):
        fold([Withdrawn()] * 4, piece)
    assert fold([Withdrawn(), PutBack(3, CORD)], piece) == piece


def test_it_is_undone_and_redone_like_any_act() -> None:
    piece, out = fold(PLAYED), fold([*PLAYED, TakenOut(2, SLIP)])
    assert fold([UndoneAct()], out) == piece
    assert fold([UndoneAct(), RedoneAct()], out) == out
    assert fold([PutBack(2, SLIP), UndoneAct()], out) == out


def test_a_jump_back_leaves_behind_what_is_out_as_well() -> None:
    out = fold([*PLAYED, TakenOut(4, LATE), TakenOut(1, EARLY)])
    jumped = after(out, Jumped(12))
    assert [(one.measured, one.counts) for one in jumped.all_readings] == [(EARLY, False), (SLIP, True), (CORD, True)]
    assert jumped.left_behind == (LATE,)
    assert fold([UndoneAct()], jumped) == fold([Undone(16)], jumped) == out  # as now, and as earlier versions did
    put_back = after(jumped, PutBack(1, EARLY))
    assert fold([Undone(16)], put_back) == fold([PutBack(1, EARLY)], out)


@pytest.mark.parametrize(
    ("events", "why"),
    [
        ([TakenOut(0, EARLY)], "Reading 0 is another one now"),
        ([TakenOut(5, LATE)], "Reading 5 is another one now"),
        ([TakenOut(2, LATE)], "Reading 2 is another one now"),
        ([PutBack(2, SLIP)], "Reading 2 counts already"),
        ([TakenOut(2, SLIP), TakenOut(2, SLIP)], "Reading 2 is taken out already"),
        ([Abandoned("tired"), TakenOut(2, SLIP)], "put away"),
    ],
)
def test_what_does_not_follow_is_refused(events, why) -> None:
    with pytest.raises(NotPossible, match=why):
        fold([*PLAYED, *events])


def test_a_reading_more_is_the_last_one_whatever_is_out() -> None:
    again = Measured("strand", 16, 150.0, "again")
    piece = fold([*PLAYED, TakenOut(1, EARLY), TakenOut(4, LATE), again, Confirmed(17)])
    assert piece.readings == (SLIP, CORD, again)
    assert [one.counts for one in piece.all_readings] == [False, True, True, False, True]
