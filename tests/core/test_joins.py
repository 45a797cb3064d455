"""New cord joined on: an event at its step, in the sums from there on, taken back like a step."""

from __future__ import annotations

from dataclasses import replace

import pytest

from companion.core.forecast.cord_budget import free_at_start_mm
from companion.core.forecast.forecaster import forecast
from companion.core.journal.events import Confirmed, CutEntered, Joined, Measured, Started
from companion.core.journal.fold import after, fold, undo_of
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import with_rest
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from companion.core.values.errors import NotPossible
from companion.core.words.verdict_words import join_place

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


def test_it_is_taken_back_like_a_step(plan) -> None:
    piece = begun(plan, 15, 0)
    joined = fold([Joined(15, 250.0, ""), Confirmed(16)], piece)
    once = after(joined, undo_of(joined))
    assert (once.done, len(once.joins)) == (15, 1)
    twice = after(once, undo_of(once))
    assert (twice.done, twice.joins) == (15, ())
    assert after(twice, undo_of(twice)).done == 14
    with pytest.raises(NotPossible):
        after(piece, Joined(3, 250.0, ""))


def test_the_place_to_join_is_inside_a_long_bead_that_is_still_reached(plan) -> None:
    piece = begun(plan, 12, 260)
    outlook = forecast(plan, piece)
    step = outlook.entries[0].cord.step
    words = join_place(plan, piece, outlook)
    assert words.startswith("Best inside a bead: Slate of step ")
    named = int(words.rstrip(".").rsplit(" ", 1)[1])
    assert 12 < named < step
    assert plan.strands[0].steps[named - 1].beads == ("s",)


def test_the_widest_hole_comes_before_the_longest_bead() -> None:
    kinds = (KINDS[0], BeadKind("s", "Slate", 14, 6, 1.0), BeadKind("w", "Wide", 5, 6, 2.5))
    layout = (Repeat(10, (G, K, Bead("w"), K, S, K)),)
    wide = compile_plan(Design("Light", CORD, kinds, (Strand(layout),), Size("length", 350.0)))
    piece = begun(wide, 12, 260)
    words = join_place(wide, piece, forecast(wide, piece))
    assert words.startswith("Best inside a bead: Wide of step ")


def test_a_join_past_the_steps_that_are_left_still_counts(plan) -> None:
    """Joined at the last step, the work taken back, and what is left made shorter: the cord is joined all the same."""
    joined = fold([Joined(plan.total_steps, 250.0, "")], begun(plan, plan.total_steps, 0))
    shorter = with_rest(plan, 0, plan.strands[0].elements[:-6])
    assert shorter.total_steps < plan.total_steps
    piece = replace(joined, done=3, total_steps=shorter.total_steps)
    assert free_at_start_mm(shorter, piece, 0) == free_at_start_mm(shorter, replace(piece, joins=()), 0) + 250.0
