"""The outlook of a piece: what others measured, and formulas.

Figures from outside have their source beside them. Where it says "common practice, no source" or "own computation" that
is all there is; nothing here is invented.
"""

from __future__ import annotations

from math import sqrt

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, CordDesign, Design, End, Knot, Repeat, Size, Strand
from tests.core.forecast.light import CORD, KINDS, G, K, outlook, plan_of, planned
from tests.core.hand_designs import INCH, bead, design, knots
from tests.core.outlooks import forecast


@pytest.mark.parametrize(("pearl_mm", "silk_mm"), [(6.5, 0.45), (7, 0.5), (7.5, 0.6)])
def test_sixty_inches_of_pearls_used_107(pearl_mm, silk_mm) -> None:
    """60 in knotted, 120 in of silk cut, 13 in left: L. Podobnik, "Knotted Pearls Not So Easy" (blog, 2013). The
    sizes are not given: pearls and silk that go together, knots as estimated from the silk alone. It lies within
    their 95 %."""
    fifty = End("plain tail", tail_mm=50)
    layout = [Repeat(None, (Bead("b"), Knot("single")))]
    silk = CordDesign("silk", silk_mm, material="silk")
    plan = compile_plan(design(layout, silk, [bead(pearl_mm)], Size("length", 60 * INCH), fifty, fifty))
    piece = Piece(plan.total_steps, plan.total_steps - 1, cuts=(CutEntered(0, 120 * INCH, "120 in"),))
    left = forecast(plan, piece).entries[0].free_now
    tail_mm = plan.strands[0].end_tail_mm
    assert left.low95_mm - tail_mm <= 13 * INCH <= left.high95_mm - tail_mm


def test_finished_length_and_a_foot_fails_when_knotted() -> None:
    """The rule "finished + 12 in" (Dava Bead, "Endless Strand" tip) is for unknotted strands: 65 knots of 6.1 mm
    swallow 396.5 mm, and 304.8 mm would do for 49."""
    cord = CordDesign("linen", 0.6, knots=knots(6.1, 1.8))
    no_tail = End("plain tail", tail_mm=0)
    plan = compile_plan(design([Repeat(65, (Bead("b"), Knot("single")))], cord, [bead(6)], None, no_tail, no_tail))
    assert plan.strands[0].take_up_mm == pytest.approx(396.5)
    rule_mm = plan.finished_length_mm + 12 * INCH
    assert plan.cuts[0].cut_mm > rule_mm
    outlook = forecast(plan, Piece(plan.total_steps, 0, cuts=(CutEntered(0, rule_mm, "rule"),)))
    cord_check = outlook.entries[0].cord
    assert cord_check.verdict == "runs out"
    strand = plan.strands[0]
    bare = plan.strands[0].strand_length_mm / 65
    last_whole = int(rule_mm // (6.1 + bare))
    before = sum(step.kind == "start" for step in strand.steps)
    assert cord_check.step == last_whole + 1 + before  # the knot after the last that fits, behind the start's steps
    assert cord_check.bead == last_whole + 1
    assert 49 - last_whole < 65 * 0.25


def test_one_reading_updates_as_the_formula_says() -> None:
    """Knot mean N(4, 0.16), ten knots read 43.0, scatter 0.5, reading u 0.6: 80 knots 340.758218 sd 11.875079 (own
    computation, by formula and by conditioning all 80). Everything else switched off."""

    quiet = replace(
        USUAL, piece_cv=0, tension_walk_by_end_cv=0, strand_scale_cv=0, knot_correlation=0, knot_scatter_cv=0.5 / 4,
        strand_handling_mm=0.6, estimate_length_cv=0.1, settling_share=0, settling_cv=0,
    )  # fmt: skip
    diameter = 4 / 2.9
    plan = compile_plan(design([Repeat(80, (Knot("single"),))], CordDesign("c", diameter), []), assumptions=quiet)
    start = next(step.number for step in plan.strands[0].steps if step.kind == "string") - 1
    reading = Measured("strand", start + 10, 43.0, "43 mm", ruler_step_mm=0.0)
    outlook = forecast(plan, Piece(plan.total_steps, start + 10, readings=(reading,)), quiet)
    assert outlook.finished.mean_mm == pytest.approx(340.758218451750, abs=1e-9)
    assert outlook.finished.sd_mm == pytest.approx(11.875078835481, abs=1e-9)


def test_a_reading_of_nothing_of_the_sort_leaves_the_forecast_alone() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    before = outlook(plan, [(6, planned(plan, 6))])
    found = outlook(plan, [(6, planned(plan, 6)), (12, planned(plan, 12) + 260)])
    assert found.verdict == "measure again"
    assert found.faults[0].off_mm == pytest.approx(260, abs=5)
    assert found.finished.mean_mm == pytest.approx(before.finished.mean_mm, abs=1.5)
    assert found.finished.sd_mm == pytest.approx(before.finished.sd_mm, rel=0.25)


@pytest.mark.parametrize("reads", [40_000.0, 300_000.0, 0.0])
def test_a_wild_reading_does_not_pull_at_the_forecast(reads) -> None:
    """Another unit, a slipped figure: however far off, what is expected stays what it was without it."""
    plan = plan_of([Repeat(30, (G, K))])
    before = outlook(plan, [(6, planned(plan, 6))])
    for readings in ([(6, planned(plan, 6)), (12, reads)], [(12, reads), (6, planned(plan, 6))]):
        found = outlook(plan, readings)
        assert found.faults[0].kind == "misread"
        assert found.faults[0].p > 0.98
        assert found.finished.mean_mm == pytest.approx(before.finished.mean_mm, abs=1.0)
        assert found.finished.sd_mm == pytest.approx(before.finished.sd_mm, rel=0.2)


NONSENSE = {
    "far apart at one step": [(12, 96.0), (12, 196.0)],
    "forty metres": [(12, 40_000.0)],
    "nothing at all": [(12, 0.0)],
    "all alike": [(4, 50.0), (8, 50.0), (12, 50.0), (12, 50.0)],
}


@pytest.mark.parametrize("name", NONSENSE)
def test_nothing_typed_in_breaks_a_sum(name) -> None:
    found = outlook(plan_of([Repeat(30, (G, K))]), NONSENSE[name])
    assert found.finished.low95_mm <= found.finished.mean_mm <= found.finished.high95_mm
    assert 0 <= found.p_fault <= 1
    assert found.p_in_tolerance is not None
    assert sqrt(found.finished.sd_mm**2) == found.finished.sd_mm


@pytest.mark.parametrize(
    "layout", [(G,), (K,), (G, G, G), tuple([G, K] * 400)], ids=["bead", "knot", "no knots", "long"]
)
def test_odd_designs(layout) -> None:
    plan = compile_plan(Design("Odd", CORD, KINDS, (Strand(layout),)))
    step = len(plan.strands[0].steps) - 1
    taken = (Measured("strand", step, 1.03 * planned(plan, step), ""), Measured("free", step, 55.0, ""))
    found = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, step, readings=taken))
    assert found.finished.sd_mm >= 0
    assert found.verdict in ("no target", "recount", "measure again", "watch")
