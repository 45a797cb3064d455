"""New cord joined on is in the sums from its step on."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.cord_budget import free_at_start_mm
from companion.core.journal.events import Confirmed, CutEntered, Joined, Measured, Started
from companion.core.journal.fold import after, fold
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import with_rest
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from tests.core.outlooks import forecast

G, S, K = Bead("g"), Bead("s"), Knot("single")
CORD = CordDesign("silk", 0.45, 1, knots=(("single", KnotNumbers(6, 2)),))
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Slate", 14, 6, 1.0))


@pytest.fixture
def plan():
    layout = (Repeat(10, (G, K, G, K, S, K)),)
    return compile_plan(Design("Light", CORD, KINDS, (Strand(layout),), Size("length", 350.0)))


def begun(plan, steps: int, short_mm: float):
    cut = CutEntered(0, plan.cuts[0].cut_mm - short_mm, "cut")
    return fold([Started(plan.total_steps), cut, *(Confirmed(n) for n in range(1, steps + 1))])


def test_a_join_is_worth_what_it_adds(plan) -> None:
    piece = begun(plan, 15, 200)
    before = forecast(plan, piece)
    joined = after(piece, Joined(15, 250.0, "25 cm"))
    now = forecast(plan, joined)
    assert before.entries[0].cord.verdict == "runs out"
    assert now.entries[0].cord.verdict == "enough"
    assert now.entries[0].free_end.mean_mm == pytest.approx(before.entries[0].free_end.mean_mm + 250)
    assert now.entries[0].free_now.mean_mm == pytest.approx(before.entries[0].free_now.mean_mm + 250)
    assert now.finished == before.finished


def test_readings_before_it_and_after_it_agree(plan) -> None:
    """The same cord, read at one step before and after 250 mm are joined on: the same forecast either way."""
    piece = begun(plan, 15, 0)
    free = forecast(plan, piece).entries[0].free_now.mean_mm
    early = Measured("free", 15, free - 4, "")
    late = Measured("free", 15, free - 4 + 250, "")
    join = Joined(15, 250.0, "")
    one = forecast(plan, fold([early, join], piece))
    other = forecast(plan, fold([join, late], piece))
    assert one.entries[0].free_end.mean_mm == pytest.approx(other.entries[0].free_end.mean_mm)
    assert one.finished.mean_mm == pytest.approx(other.finished.mean_mm)
    assert free_at_start_mm(plan, fold([early, join], piece), 0, early) == pytest.approx(plan.cuts[0].cut_mm)


def test_a_join_past_the_steps_that_are_left_still_counts(plan) -> None:
    """Joined at the last step, the work taken back, and what is left made shorter: the cord is joined all the same."""
    joined = fold([Joined(plan.total_steps, 250.0, "")], begun(plan, plan.total_steps, 0))
    shorter = with_rest(plan, 0, plan.strands[0].elements[:-6])
    assert shorter.total_steps < plan.total_steps
    piece = replace(joined, done=3, total_steps=shorter.total_steps)
    assert free_at_start_mm(shorter, piece, 0) == free_at_start_mm(shorter, replace(piece, joins=()), 0) + 250.0
