"""All readings: what was expected of each, by what, and whether it counts."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.reading_list import reading_list
from companion.core.journal.events import CutEntered, Jumped, Measured, Started, TakenOut
from companion.core.journal.fold import fold
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from tests.core.forecast.test_counting import plan_of
from tests.core.forecast.test_set_aside import a_plan, strand

PLAN = a_plan()
FIRST, SLIP, THIRD, LAST = (
    strand(PLAN, 6, 0.5),
    strand(PLAN, 8, -25.4),
    strand(PLAN, 10, 0.8),
    strand(PLAN, 14, 1.1),
)
TAKEN = [Started(PLAN.total_steps), Jumped(14), FIRST, SLIP, THIRD, LAST]


def listed(plan: Plan, *events):
    return reading_list(Forecaster(plan, faults=True), fold(events))


def believed_mm(plan: Plan, before: tuple[Measured, ...], step: int) -> float:
    """The second way: a forecast of its own, of a piece that stands there with the earlier readings alone."""
    return (
        Forecaster(plan, faults=True)
        .outlook(Piece(plan.total_steps, step, readings=before))
        .entries[0]
        .strand_now.mean_mm
    )


def test_each_has_its_number_and_whether_it_counts() -> None:
    found = listed(PLAN, *TAKEN, TakenOut(3, THIRD))
    assert [(one.number, one.measured, one.state) for one in found] == [
        (1, FIRST, "counts"),
        (2, SLIP, "set aside"),
        (3, THIRD, "taken out"),
        (4, LAST, "counts"),
    ]


def test_of_the_first_the_plan_is_all_that_is_expected_of_later_ones_what_those_before_say() -> None:
    first, slip, third, last = listed(PLAN, *TAKEN, TakenOut(3, THIRD))
    planned = [one.strand_mm for one in PLAN.strands[0].steps]
    assert [one.planned_mm for one in (first, slip, third, last)] == [planned[n] for n in (5, 7, 9, 13)]
    assert (first.believed_mm, first.expected_mm) == (None, planned[5])
    # What is set aside, and what is taken out, lets expect nothing of those after it.
    for one, step in ((slip, 8), (third, 10), (last, 14)):
        assert one.expected_mm == one.believed_mm == pytest.approx(believed_mm(PLAN, (FIRST,), step), abs=1e-9)
    assert last.believed_mm > planned[13]


def test_a_reading_that_counts_is_not_held_against_itself() -> None:
    alone = listed(PLAN, *TAKEN[:3], LAST)
    assert alone[1].believed_mm == pytest.approx(believed_mm(PLAN, (FIRST,), 14), abs=1e-9)


def test_looking_at_the_list_leaves_the_forecast_as_it_was() -> None:
    piece, used = fold(TAKEN), Forecaster(PLAN, faults=True)
    before = used.outlook(piece)
    reading_list(used, piece)
    assert used.outlook(piece) == before
    assert used.new_readings(piece) == 0


def test_the_leftover_cord_is_expected_from_the_cord_as_it_was_cut_and_read() -> None:
    step = PLAN.strands[0].steps[13]
    cut_mm = PLAN.cuts[0].cut_mm + 40.0
    cut, cord = CutEntered(0, cut_mm, ""), Measured("free", 14, 300.0, "")
    (alone,) = listed(PLAN, TAKEN[0], TAKEN[1], cut, cord)
    assert alone.planned_mm == pytest.approx(cut_mm / 2 - step.cord_used_mm)
    assert alone.believed_mm is None
    at_start = Measured("free", 0, cut_mm / 2 - 15.0, "")  # fifteen less than was entered
    told, later = listed(PLAN, TAKEN[0], TAKEN[1], cut, at_start, cord)
    assert told.planned_mm == pytest.approx(cut_mm / 2)  # before it was read, the cut was all that was known
    assert told.believed_mm is None
    assert later.planned_mm == pytest.approx(alone.planned_mm - 15.0)


def test_of_several_strands_each_is_of_its_own() -> None:
    plan = plan_of(6, 8)
    step = plan.piece_step(1, 5)
    upper = Measured("strand", 4, plan.strands[0].steps[3].strand_mm + 1, "")
    lower = Measured("strand", step, plan.strands[1].steps[4].strand_mm, "")
    _, second = listed(plan, Started(plan.total_steps), Jumped(step), upper, lower)
    assert second.planned_mm == plan.strands[1].steps[4].strand_mm
    assert (
        second.believed_mm > second.planned_mm
    )  # the knots of the upper strand run long, and the same hands tie these


def test_those_left_behind_by_a_jump_come_last_without_a_number() -> None:
    found = listed(PLAN, *TAKEN, Jumped(9))
    assert [(one.number, one.measured) for one in found] == [(1, FIRST), (2, SLIP), (None, THIRD), (None, LAST)]
    assert {(one.state, one.expected_mm) for one in found[2:]} == {("left behind", None)}


def test_without_readings_the_list_is_empty() -> None:
    assert listed(PLAN, TAKEN[0]) == ()


def test_before_the_first_element_there_is_nothing_to_read() -> None:
    nought = replace(FIRST, step=0, length_mm=0.0)
    (one,) = listed(PLAN, TAKEN[0], nought)
    assert (one.planned_mm, one.believed_mm) == (0.0, None)
