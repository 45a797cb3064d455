"""New cord joined on is in the sums from its step on."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.cord_budget import closing_step, free_at_start_mm, last_string_step
from companion.core.journal.events import Confirmed, CutEntered, Joined, Measured, Started
from companion.core.journal.fold import after, fold
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import with_rest
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from companion.core.words.measured.cord_words import cord_line
from companion.storage.design.files import read_design
from tests.core.outlooks import forecast
from tests.core.plan.test_shipped_steps import PATTERNS

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


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_what_comes_after_the_closure_takes_no_cord(path) -> None:
    """With next to nothing left: said until the closure holds, and nothing of the cord from then on, though glue, snips
    and pliers are still to come."""
    plan = compile_plan(read_design(path).design)
    cuts = tuple(CutEntered(number, cut.cut_mm, "cut") for number, cut in enumerate(plan.cuts))
    entry = len(plan.strands) - 1
    closes, last = plan.piece_step(entry, closing_step(plan, entry)), last_string_step(plan, entry)
    strand = plan.strands[entry]
    assert last < closing_step(plan, entry) <= len(strand.steps)
    assert not any(step.trims for step in strand.steps[: closing_step(plan, entry) - 1])
    free = Measured("free", plan.piece_step(entry, last), 5.0, "5 mm")
    for done in range(plan.piece_step(entry, last), plan.total_steps + 1):
        outlook = forecast(plan, Piece(plan.total_steps, done, cuts=cuts, readings=(free,)))
        others = [other.cord.verdict for other in outlook.entries[:entry]]
        assert outlook.entries[entry].cord.verdict == ("short to hold" if done < closes else "enough")
        assert set(others) <= {"enough"}
        assert (cord_line(plan, outlook).text == "") == (done >= closes)


def test_a_plan_kept_before_steps_said_whether_they_close_ends_with_the_snips(plan) -> None:
    (strand,) = plan.strands
    older = tuple(replace(step, closes=False) for step in strand.steps)
    trims = next(step.number for step in older if step.trims)
    assert closing_step(replace(plan, strands=(replace(strand, steps=older),)), 0) == trims


def test_a_join_is_worth_what_it_adds(plan) -> None:
    piece = begun(plan, 15, 250)
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


def short_by(plan, steps: int, left_mm: float):
    """So many steps are made, from a cord that is expected to leave `left_mm` after the last knot."""
    strand = plan.strands[0]
    planned = next(step.free_cord_mm for step in reversed(strand.steps) if step.kind == "string")
    piece = begun(plan, steps, planned - left_mm)
    readings = (Measured("free", steps, strand.steps[steps - 1].free_cord_mm - planned + left_mm, ""),)
    return forecast(plan, replace(piece, readings=readings)).entries[0].cord


def test_a_cord_that_reaches_the_last_knot_is_short_to_hold_and_does_not_run_out(plan) -> None:
    """40 mm beyond the last knot: too little for the hands and the tail, and nothing ends before it."""
    cord = short_by(plan, 25, 40.0)
    assert cord.verdict == "short to hold"
    assert cord.p_run_out < 0.05
    assert cord.p_short_to_hold > 0.9
    assert cord.step is None
    assert cord.bead is None
    assert cord.short_mm > 0


def test_a_cord_that_ends_too_soon_names_the_bead(plan) -> None:
    cord = short_by(plan, 20, -40.0)
    assert cord.verdict == "runs out"
    step = plan.strands[0].steps[cord.step - 1]
    assert step.kind == "string"
    assert cord.bead == sum(len(one.beads) for one in plan.strands[0].steps[: cord.step])
    used_mm = plan.strands[0].steps[-2].cord_used_mm - step.cord_used_mm  # what comes after that step is missing
    assert used_mm == pytest.approx(40.0, abs=35.0)


def test_steps_that_take_no_cord_never_run_out(plan) -> None:
    """With the last knot tied nothing ends any more, however little is left."""
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    cord = short_by(plan, last, 5.0)
    assert cord.p_run_out == 0.0
    assert cord.verdict == "short to hold"
    assert cord.step is None
