"""What a maker should see to before the first knot.

Figures from outside have their source beside them. Where it says "common practice, no source" or "own computation" that
is all there is; nothing here is invented.
"""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadRun, CordDesign, End, Knot, Repeat, Size
from tests.core.hand_designs import bead, design, knots


def test_doubled_cord_and_closure_passes_reach_the_hole_check() -> None:
    """French wire takes the cord back through the end beads: four cords of 0.5 mm need 1.21 mm (2.4142 x 0.5), with no
    room to spare (S. Kravitz's ratios are zero clearance), and 1.33 mm with a tenth of it."""
    wire = End("French wire and clasp")
    cord = CordDesign("c", 0.5, layers=2, knots=knots(6, 2))
    layout = [Bead("b"), Repeat(9, (Knot("single"), Bead("b")))]
    for hole, code in ((1.15, ["hole too small"]), (1.22, ["hole tight"]), (1.34, [])):
        plan = compile_plan(design(layout, cord, [bead(6, hole_mm=hole)], None, wire, wire))
        assert [warning.code for warning in plan.warnings] == code


@pytest.mark.parametrize(("wrist_mm", "questioned"), [(120, True), (154, False), (176, False), (220, True)])
def test_wrists_that_are_asked_about(wrist_mm, questioned) -> None:
    """Least and greatest of Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel; 154 and 176: medians."""
    plan = compile_plan(design([BeadRun("b", None)], CordDesign("c", 0.5), [bead(8)], Size("wrist", wrist_mm)))
    assert ("unusual wrist" in [warning.code for warning in plan.warnings]) == questioned


@pytest.mark.parametrize(("beads", "passes"), [(26, False), (30, True)])
def test_an_endless_bracelet_must_pass_the_hand(beads, passes) -> None:
    """230 mm: the 95th percentile of men's hands, same survey."""
    loop = End("endless")
    plan = compile_plan(design([BeadRun("b", beads)], CordDesign("c", 0.5), [bead(8, hole_mm=2)], None, loop, loop))
    assert ("may not pass" not in [warning.code for warning in plan.warnings]) == passes
