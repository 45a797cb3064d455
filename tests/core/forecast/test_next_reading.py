"""When the ruler is due: soon at first, rarer while readings agree, sooner after a surprise, strand by strand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from tests.core.outlooks import forecast

KINDS = (BeadKind("g", "Glass", 6, 6, 1.0),)
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


def plan_of(*knots: int):
    """A plan with one strand for each number, of so many beads with a knot after each."""
    strands = [
        Strand((Repeat(count, (Bead("g"), Knot("single"))),), name=f"strand {place}")
        for place, count in enumerate(knots)
    ]
    return compile_plan(Design("Dun light", CORD, KINDS, tuple(strands)))


def string_step(plan, entry: int, knot: int) -> int:
    """The piece's step that ties that knot (from 1) of an entry."""
    stops = [step.number for step in plan.strands[entry].steps if step.kind == "string"]
    return plan.piece_step(entry, stops[knot - 1])


def reading(plan, step: int, off_mm: float = 0.0) -> Measured:
    entry, number = plan.place(step)
    return Measured("strand", step, plan.strands[entry].steps[number - 1].strand_mm + off_mm, "")


def due(plan, done: int, *readings: Measured) -> int | None:
    return forecast(plan, Piece(plan.total_steps, done, readings=readings)).next_reading_step


@pytest.mark.parametrize(("knots", "first"), [(100, 15), (60, 15), (40, 10), (13, 4), (12, 3), (6, 3), (3, 3), (2, 2)])
def test_first_after_fifteen_knots_or_a_quarter_but_never_before_three(knots, first) -> None:
    """Fifteen knots or a quarter, whichever is less, and no fewer than three; a shorter strand: at its end."""
    plan = plan_of(knots)
    assert due(plan, 0) == string_step(plan, 0, first)
    assert due(plan, string_step(plan, 0, 1)) == string_step(plan, 0, first)


def test_rarer_while_readings_agree_up_to_a_third_of_the_strand() -> None:
    plan = plan_of(100)
    taken, at = [], []
    for _ in range(4):
        step = due(plan, taken[-1].step if taken else 0, *taken)
        taken.append(reading(plan, step))
        at.append(plan.place(step)[1] - string_step(plan, 0, 1) + 1)
    # 15, then half as far again (22.5), then 33.75 held down to a third; then while one bead can still be left out
    assert at == [15, 37, 70, 99]
    assert due(plan, taken[-1].step, *taken) is None


def test_a_surprise_brings_the_next_one_as_soon_as_the_first() -> None:
    plan = plan_of(100)
    first, second = string_step(plan, 0, 15), string_step(plan, 0, 37)
    agreed = (reading(plan, first), reading(plan, second))
    surprised = (reading(plan, first), reading(plan, second, -25))
    assert due(plan, second, *agreed) == string_step(plan, 0, 70)
    assert due(plan, second, *surprised) == string_step(plan, 0, 52)


def test_never_twice_at_one_place() -> None:
    plan = plan_of(40)
    step = string_step(plan, 0, 10)
    assert due(plan, step, reading(plan, step)) == string_step(plan, 0, 23)


def test_a_due_reading_that_was_passed_stays_due() -> None:
    plan = plan_of(40)
    assert due(plan, string_step(plan, 0, 30)) == string_step(plan, 0, 10)


def test_each_strand_has_its_own() -> None:
    plan = plan_of(40, 60)
    begun = plan.piece_step(1, 0)
    assert due(plan, begun, reading(plan, string_step(plan, 0, 10))) == string_step(plan, 1, 15)
    assert due(plan, begun - 1) is None  # the first strand is strung: its closure is all that is left of it


def test_a_reading_of_another_strand_tells_nothing_of_when() -> None:
    """The first strand laid on the ruler again while the second is worked, and far off: the second's own agreed."""
    plan = plan_of(60, 60)
    own = reading(plan, string_step(plan, 1, 15))
    again = reading(plan, string_step(plan, 0, 60), 25)
    assert due(plan, own.step, own, again) == due(plan, own.step, own) == string_step(plan, 1, 35)


def test_a_reading_before_the_first_bead_does_not_count() -> None:
    """Nothing is strung yet: it tells neither that readings agree nor where the last one was."""
    plan = plan_of(60, 60)
    earlier = reading(plan, string_step(plan, 0, 15))
    empty = Measured("strand", plan.piece_step(1, 1), 0.0, "")
    assert plan.strands[1].steps[0].kind == "start"
    assert due(plan, empty.step, earlier, empty) == string_step(plan, 1, 15)


@pytest.mark.parametrize("knots", [2, 3, 4, 8, 12, 20, 61])
def test_whatever_is_announced_is_asked_for_at_its_step(knots) -> None:
    """Also for the last knot, before the closing is begun; once it is begun nothing is due."""
    plan = plan_of(knots)
    last = string_step(plan, 0, knots)
    taken, announced = [], due(plan, 0)
    while announced is not None:
        assert due(plan, announced, *taken) == announced
        taken.append(reading(plan, announced))
        announced = due(plan, announced, *taken)
    assert last - 3 < taken[-1].step <= last
    assert due(plan, last) == taken[0].step  # never measured: it stays due
    assert due(plan, last + 1) is None
    assert due(plan, plan.total_steps) is None


def test_the_last_one_of_a_strand_is_asked_for_before_the_next_strand() -> None:
    plan = plan_of(12, 12)
    last = string_step(plan, 0, 12)
    assert due(plan, last) == string_step(plan, 0, 3)
    assert due(plan, plan.piece_step(1, 0)) == string_step(plan, 1, 3)


@given(st.integers(1, 70), st.lists(st.tuples(st.integers(1, 70), st.floats(-30, 30)), max_size=6), st.data())
def test_it_is_a_step_of_the_strand_in_hand(knots, offs, data) -> None:
    plan = plan_of(knots, 8)
    done = data.draw(st.integers(0, plan.total_steps))
    strung = [string_step(plan, 0, knot) for knot, _ in offs if knot <= knots]
    taken = tuple(reading(plan, step, off) for step, (_, off) in zip(strung, offs, strict=False) if step <= done)
    step = Forecaster(plan).outlook(Piece(plan.total_steps, done, readings=taken)).next_reading_step
    if step is None:
        return
    entry, number = plan.place(step)
    assert entry == plan.place(done + 1)[0]
    assert plan.strands[entry].steps[number - 1].kind == "string"
    mine = [one.step for one in taken if plan.place(one.step)[0] == entry]
    last_step = string_step(plan, entry, (knots, 8)[entry])
    assert step == last_step or step >= max(mine, default=0) + 3


ONLY_BEADS = {  # every chance of a fault but that of a lost bead switched off
    "prior_tension_step": 1e-9, "prior_tension_drift": 1e-9, "prior_step_lost": 1e-9, "prior_knot_lost": 1e-9,
    "prior_double_as_single": 1e-9, "prior_misread": 1e-9, "prior_gross_misread": 1e-9, "prior_wild_misread": 1e-9,
    "prior_cut_misread": 1e-9,
}  # fmt: skip


def with_target(knots: int, tolerance_mm: float = 4.0):
    layout = (Repeat(knots, (Bead("g"), Knot("single"))),)
    size = Size("length", 8.0 * knots, 0, tolerance_mm)
    return compile_plan(Design("Dun light", CORD, KINDS, (Strand(layout),), size))


def due_by_chance(plan, taken, **settings) -> int:
    last = taken[-1].step
    piece = Piece(plan.total_steps, last, readings=tuple(taken))
    step = Forecaster(plan, replace(USUAL, **settings), faults=True).outlook(piece).next_reading_step
    assert step is not None
    return step - last


def test_due_where_the_chance_of_a_fault_unseen_passes_its_level() -> None:
    """By hand: a reading that agreed lets the level grow from 2 to 3 %. A lost 6 mm bead takes a piece with 4 mm of
    tolerance out of it but for 1 in 44 (sd 1: Φ(-2)). Its chance in the whole strand 0.4, or 0.1, evenly spread over 60
    steps, is past 3 % after 4.6, or 18.4, of them; a little later, for had a bead been lost before it would show."""
    plan = with_target(60)
    taken = [reading(plan, string_step(plan, 0, 15))]
    assert due_by_chance(plan, taken, **ONLY_BEADS, prior_bead_lost=0.2) in (5, 6)
    assert due_by_chance(plan, taken, **ONLY_BEADS, prior_bead_lost=0.05) in (19, 20)
    assert due_by_chance(plan, taken, **ONLY_BEADS, prior_bead_lost=0.01) == 20  # a third of the strand


def test_sooner_after_a_surprise_and_later_where_tolerance_is_wide() -> None:
    plan, wide = with_target(60), with_target(60, 12.0)
    steps = [string_step(plan, 0, knot) for knot in (15, 27)]
    agreed = [reading(plan, step) for step in steps]
    surprised = [reading(plan, steps[0]), reading(plan, steps[1], -5.0)]
    assert due_by_chance(plan, surprised) < due_by_chance(plan, agreed)
    assert due_by_chance(plan, agreed) <= due_by_chance(wide, [reading(wide, step) for step in steps])


def test_once_more_while_the_last_repeat_can_still_be_left_out() -> None:
    """Two beads and their knots come again: measured before the last two steps."""
    layout = (Repeat(15, (Bead("g"), Knot("single"), Bead("g"), Knot("double"))),)
    plan = compile_plan(Design("Dun light", CORD, KINDS, (Strand(layout),), Size("length", 252.0, 0, 3.0)))
    taken = [reading(plan, string_step(plan, 0, knot)) for knot in (8, 16, 24)]
    piece = Piece(plan.total_steps, taken[-1].step, readings=tuple(taken))
    calm = replace(USUAL, **ONLY_BEADS, prior_bead_lost=1e-6)
    assert Forecaster(plan, calm, faults=True).outlook(piece).next_reading_step == string_step(plan, 0, 28)
