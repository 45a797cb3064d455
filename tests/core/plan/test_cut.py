"""Planned cuts run out as often as they say: 40,000 pieces drawn from the same assumptions, by code of their own."""

from __future__ import annotations

import numpy as np
import pytest

from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Strand

PIECES = 40_000
WRITTEN = (("single", KnotNumbers(6.0, 2.0)), ("double", KnotNumbers(11.0, 3.4)))
DESIGNS = {
    "every bead, numbers written": (
        CordDesign("silk", 0.45, 2, "silk", knots=WRITTEN),
        (Repeat(40, (Bead("a"), Knot("single"))),),
    ),
    "doubles among singles": (
        CordDesign("silk", 0.45, 1, "silk", knots=WRITTEN),
        (Repeat(12, (Bead("a"), Knot("single"), Bead("b"), Knot("double"), Bead("b"), Knot("single"))),),
    ),
    "estimated leather": (
        CordDesign("leather", 1.5, 1, "leather"),
        (Repeat(14, (Bead("b"), Knot("double"), Bead("b"), Bead("b"))),),
    ),
}


def correlated(draw, sd_w, sd_t, rho, shape):
    """Pairs of deviations, correlated; each an array of that shape."""
    one, two = draw.normal(size=shape), draw.normal(size=shape)
    return sd_w * one, sd_t * (rho * one + np.sqrt(1 - rho * rho) * two)


def cord_used(plan, seed: int) -> np.ndarray:
    """Cord that strand and knots use in each of the pieces, mm a layer."""
    draw = np.random.default_rng(seed)
    a, strand = USUAL, plan.strands[0]
    used = np.zeros(PIECES)
    card, tight = {}, correlated(draw, a.piece_cv, a.piece_cv, a.piece_correlation, PIECES)
    for kind in ("single", "double"):
        f = plan.cord.knot(kind)
        w, t = correlated(draw, f.length_sd_mm, f.take_up_sd_mm, a.knot_correlation, PIECES)
        heavy = np.sqrt(f.degrees / draw.chisquare(f.degrees, PIECES)) if f.degrees < 1e6 else 1.0
        card[kind] = (f, w * heavy, t * heavy)
    lots = {kind.key: draw.normal(0, a.bead_lot_cv, PIECES) for kind in plan.beads}
    knots = sum(isinstance(element, Knot) for element in strand.elements)
    tension = np.zeros(PIECES)
    for element in strand.elements:
        if isinstance(element, Knot):
            f, w, t = card[element.kind]
            tension += draw.normal(0, a.tension_walk_by_end_cv / np.sqrt(knots), PIECES)
            own = correlated(draw, f.length_scatter_mm, f.take_up_scatter_mm, a.knot_correlation, PIECES)
            used += f.length_mm * (1 + tight[0] + tension) + w + own[0]
            used += f.take_up_mm * (1 + tight[1] + tension) + t + own[1]
        else:
            length = plan.bead(element.key).length_mm
            used += length * (1 + lots[element.key] + draw.normal(0, a.bead_scatter_cv, PIECES))
    return used


@pytest.mark.parametrize("name", DESIGNS)
@pytest.mark.parametrize("risk", [0.01, 0.05])
def test_one_piece_in_a_hundred_runs_out(name, risk) -> None:
    cord, layout = DESIGNS[name]
    beads = (BeadKind("a", "a", 6, 6), BeadKind("b", "b", 9, 9))
    plan = compile_plan(Design("Risk light", cord, beads, (Strand(layout),)), risk=risk)
    strand = plan.strands[0]
    used = cord_used(plan, seed=len(name))
    rest = strand.start_tail_mm + strand.start_closure_cord_mm + strand.end_closure_cord_mm
    needed = used + rest + strand.end_tail_mm + strand.working_allowance_mm
    assert needed.mean() == pytest.approx(strand.need_mm, rel=0.002)
    assert needed.std() == pytest.approx(strand.need_sd_mm, rel=0.06)
    ran_out = (needed > strand.cut_mm / strand.layers).mean()
    assert ran_out == pytest.approx(risk, abs=0.003 if risk == 0.01 else 0.008)
    assert strand.run_out_risk == pytest.approx(risk, abs=1e-9)


def test_a_higher_risk_cuts_less() -> None:
    cord, layout = DESIGNS["every bead, numbers written"]
    beads = (BeadKind("a", "a", 6, 6),)
    cuts = [
        compile_plan(Design("x", cord, beads, (Strand(layout),)), risk=r).cuts[0].cut_mm for r in (0.002, 0.01, 0.2)
    ]
    assert cuts[0] > cuts[1] > cuts[2]
