"""The screen set right after a count: by as many beads from where the work is, with the readings taken since."""

from __future__ import annotations

import pytest

from companion.core.forecast.counting import Stretch, stretch
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.screen_set import screen_set
from companion.core.journal.events import NOWHERE, Jumped, Measured, Recounted
from companion.core.journal.fold import after
from companion.core.journal.piece import Join, Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from tests.core.forecast.test_counting import plan_of

G, S, K = Bead("g"), Bead("s"), Knot("single")
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 2, 5, 1.0))
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


def of(*layout):
    design = Design("Dun light", CORD, KINDS, (Strand(tuple(layout)),), Size("length", 240.0, 0, 3.0))
    return compile_plan(design)


def mm(plan, step):
    entry, number = plan.place(step)
    return plan.strands[entry].steps[number - 1].strand_mm


def read(*pairs):
    return tuple(Measured("strand", step, float(length), "") for step, length in pairs)


@pytest.mark.parametrize(
    ("since", "until", "beads", "to"),
    [(10, 18, -1, 25), (18, 26, -1, 25), (0, 26, -1, 25), (10, 18, 1, 27), (10, 18, -3, 23), (10, 18, 2, 28)],
)
def test_as_many_beads_from_where_the_work_is_wherever_they_were_counted(since, until, beads, to) -> None:
    """26 steps done, the alarm over steps 11 to 18: the strand is a bead shorter than the screen thinks, so it goes
    back one step, and the good steps since are kept."""
    plan = plan_of(30)
    jump = screen_set(plan, Piece(plan.total_steps, 26), stretch(plan, since, until), beads)
    assert jump is not None
    assert jump.to == to


def test_a_step_that_holds_several_beads_is_none_that_was_marked_twice() -> None:
    """One bead fewer, where every step holds three: no step ends there, so it really is left out; three fewer may be a
    step."""
    plan = of(Repeat(8, (G, S, G, K)))
    piece = Piece(plan.total_steps, 7)
    assert screen_set(plan, piece, stretch(plan, 2, 5), -1) is None
    assert screen_set(plan, piece, stretch(plan, 2, 5), -3).to == 6


def test_never_past_the_ends_of_the_strand_or_once_its_closure_is_begun() -> None:
    plan = plan_of(6)
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    counted = stretch(plan, 0, 4)
    assert screen_set(plan, Piece(plan.total_steps, last), counted, 1) is None
    assert screen_set(plan, Piece(plan.total_steps, last + 1), counted, -1) is None
    assert screen_set(plan, Piece(plan.total_steps, 4), counted, -40) is None
    assert screen_set(plan, Piece(plan.total_steps, 4), counted, 0) is None


def test_another_strands_beads_are_not_the_screens() -> None:
    plan = plan_of(5, 6)
    first = stretch(plan, 0, 5)
    assert screen_set(plan, Piece(plan.total_steps, plan.piece_step(1, 4)), first, -1) is None


def test_what_was_read_and_joined_since_belongs_to_the_steps_that_were_really_done() -> None:
    plan = plan_of(30)
    readings = read((10, mm(plan, 10)), (18, mm(plan, 17)), (26, mm(plan, 25)))
    joins = (Join(22, 300.0, ()),)
    right_before, right_later = Recounted(10), Recounted(26, 20)
    piece = Piece(plan.total_steps, 26, readings=readings, joins=joins, counted=(right_before, right_later))
    jump = screen_set(plan, piece, stretch(plan, 10, 18), -1)
    really = after(piece, jump)
    assert (really.done, [one.step for one in really.readings]) == (25, [10, 17, 25])
    assert [one.length_mm for one in really.readings] == [one.length_mm for one in readings]
    assert really.joins == (Join(21, 300.0, ()),)
    assert really.counted == (right_before, Recounted(17, 10), Recounted(25, 19))


def test_the_alarm_is_over_and_its_beads_are_counted() -> None:
    plan = plan_of(30)
    readings = read((10, mm(plan, 10)), (18, mm(plan, 17)), (26, mm(plan, 25)))
    piece = Piece(plan.total_steps, 26, readings=readings)
    forecaster = Forecaster(plan, faults=True)
    assert forecaster.outlook(piece).verdict == "recount"
    really = after(piece, screen_set(plan, piece, stretch(plan, 10, 18), -1))
    outlook = Forecaster(plan, faults=True).outlook(really)
    assert outlook.verdict == "on plan"
    assert outlook.finished.mean_mm == pytest.approx(plan.finished_length_mm, abs=1.0)


@pytest.mark.parametrize(("wrong_from", "places"), [(20, [6, 12, 19, 25]), (12, [6, 11, 19, 25]), (6, [5, 11, 19, 25])])
def test_a_reading_within_what_was_counted_says_itself_where_it_belongs(wrong_from, places) -> None:
    """All 26 steps are counted, and a step was marked twice somewhere: before a reading or after it, by its length."""
    plan = plan_of(30)
    steps = (6, 12, 20, 26)
    readings = read(*[(step, mm(plan, step - 1 if step >= wrong_from else step)) for step in steps])
    piece = Piece(plan.total_steps, 26, readings=readings)
    really = after(piece, screen_set(plan, piece, stretch(plan, 0, 26), -1))
    assert [one.step for one in really.readings] == places


def test_a_reading_of_beads_in_another_order_fits_no_step_and_is_put_aside() -> None:
    """Strung as the screen says, a glass was skipped: after the small silver the strand is as long as nowhere in the
    plan."""
    plan = of(Repeat(14, (G, K)), S, K, Repeat(14, (G, K)))
    silver = next(step.number for step in plan.strands[0].steps if step.beads == ("s",))
    readings = read((silver, mm(plan, silver) - 8.0), (silver + 6, mm(plan, silver + 6) - 8.0))
    piece = Piece(plan.total_steps, silver + 6, readings=readings)
    jump = screen_set(plan, piece, stretch(plan, 5, silver), -1)
    assert dict(jump.moved) == {silver: NOWHERE, silver + 6: silver + 5}
    in_order = read((silver, mm(plan, silver - 1)))
    fixed = Piece(plan.total_steps, silver + 6, readings=in_order)  # all strung first: only the screen was ahead
    assert dict(screen_set(plan, fixed, stretch(plan, 5, silver), -1).moved) == {silver: silver - 1}


def test_a_screen_that_was_never_read_is_only_set() -> None:
    plan = plan_of(30)
    jump = screen_set(plan, Piece(plan.total_steps, 12), Stretch(6, 12, 6), -1)
    assert jump == Jumped(11, (), (6, 11))
