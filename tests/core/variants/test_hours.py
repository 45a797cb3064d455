"""How long a piece takes: an account from outside, and the maker's own steps."""

from __future__ import annotations

import pytest

from companion.core.journal.events import Confirmed, Event, Noted, UndoneAct
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.values.design import CordDesign, End, Repeat, Size
from companion.core.variants.hours import (
    LEAST_STEPS,
    STRAND_SECONDS,
    USUAL_HAND,
    Hand,
    Timed,
    hand_of,
    seconds_to_make,
    timed_steps,
    usual_seconds,
)
from tests.core.forecast.light import G, K, S, plan_of
from tests.core.hand_designs import INCH, bead, design
from tests.core.outside.outside import rows
from tests.core.outside.pieces import HOURS

TIP = End("bead tip and clasp")


def test_a_first_necklace_takes_almost_two_hours() -> None:
    """20 in of 6 mm pearls, about 70 knots, "almost 2 hours": 52 Things 52 Weeks, "Pearl Knotting: A Zen Night of
    Jewelry Making" (2016), a class for beginners."""
    silk = CordDesign("silk", 0.6, material="silk")
    made = design([Repeat(None, (G, K))], silk, [bead(6, key="g")], Size("length", 20 * INCH), TIP, TIP)
    plan = compile_plan(made)
    assert 60 <= dict(plan.strands[0].knots)["single"] <= 72
    assert 1.5 * 3600 < seconds_to_make(plan) < 2 * 3600


@pytest.mark.parametrize(("beads", "bead_mm", "least_hours", "most_hours"), rows(HOURS))
def test_a_mala_takes_as_long_as_its_maker_says(beads, bead_mm, least_hours, most_hours) -> None:
    silk = CordDesign("silk", 0.6, material="silk")
    plan = compile_plan(design([Repeat(beads, (G, K))], silk, [bead(bead_mm, key="g")], None, TIP, TIP))
    assert least_hours * 3600 < seconds_to_make(plan) < most_hours * 3600


def test_it_grows_with_beads_knots_strands_and_the_hand() -> None:
    plain, more = plan_of([Repeat(10, (G, K))]), plan_of([Repeat(20, (G, K))])
    assert seconds_to_make(more) - seconds_to_make(plain) == pytest.approx(10 * (75 + 10))
    assert seconds_to_make(plan_of([Repeat(10, (G, S, K))])) - seconds_to_make(plain) == pytest.approx(10 * 10)
    assert seconds_to_make(plain, Hand(0.5, own=True)) == pytest.approx(seconds_to_make(plain) / 2)
    assert seconds_to_make(plan_of([Repeat(10, (G,))])) == pytest.approx(100 + STRAND_SECONDS)


def journal(plan: Plan, *events: tuple[float, Event]) -> list[tuple[float, Event, Plan]]:
    return [(at, event, plan) for at, event in events]


def test_only_steps_marked_one_after_the_other_are_timed() -> None:
    plan = plan_of([Repeat(20, (G, K))])
    first = next(step.number for step in plan.strands[0].steps if step.kind == "string")
    found = timed_steps(
        journal(
            plan, (0.0, Confirmed(first)), (90.0, Confirmed(first + 1)), (800.0, Confirmed(first + 2)),  # a pause
            (860.0, Noted(first + 2, "tea")), (900.0, Confirmed(first + 3)), (950.0, Confirmed(first + 4)),
            (990.0, UndoneAct()), (1000.0, Confirmed(first + 4)), (1000.0, Confirmed(first + 5)),
        )
    )  # fmt: skip
    assert [one.seconds for one in found] == [90.0, 50.0]
    usual = usual_seconds(plan.strands[0].steps[first])
    assert {one.usual_seconds for one in found} == {usual} == {85.0}
    ends = [step for step in plan.strands[0].steps if step.kind != "string"]
    assert {usual_seconds(step) for step in ends} == {0.0}


def test_the_hand_is_her_own_once_there_are_enough_steps() -> None:
    slow = [Timed(85.0, 170.0)] * LEAST_STEPS
    assert hand_of(slow) == Hand(2.0, own=True)
    assert hand_of(slow[1:]) == USUAL_HAND
    assert hand_of([]) == USUAL_HAND


def test_steps_marked_together_after_the_work_count_as_the_work() -> None:
    marked = [Timed(85.0, 420.0)] + [Timed(85.0, 1.0)] * 4
    assert hand_of(marked * 3).times == pytest.approx(424 / (5 * 85))


@pytest.mark.parametrize("seconds", [0.01, 10_000.0])
def test_what_is_no_pace_says_nothing(seconds) -> None:
    assert hand_of([Timed(85.0, seconds)] * 20) == USUAL_HAND
