"""What closures add and take.

Figures from outside have their source beside them. Where it says "common practice, no source" or "own computation" that
is all there is; nothing here is invented.
"""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, CordDesign, End, Knot, Repeat
from tests.core.hand_designs import INCH, bead, design


def test_french_wire_takes_three_eighths_of_an_inch() -> None:
    """Stuller bench article, "Use of French Wire When Stringing on Silk"."""
    wire = End("French wire and clasp")
    plan = compile_plan(
        design([Repeat(9, (Bead("b"), Knot("single")))], CordDesign("c", 0.4), [bead(6)], None, wire, wire)
    )
    assert plan.strands[0].closure_length_mm / 2 == pytest.approx(0.375 * INCH, abs=INCH / 16)


def test_a_sliding_knot_takes_a_scrap() -> None:
    """Scraps of 5 to 6 in and longer will do: common practice, no source."""
    slide = End("sliding knot")
    plan = compile_plan(design([Bead("b"), Knot("single")], CordDesign("c", 1.0), [bead(6)], None, slide, slide))
    (extra,) = plan.extra_cords
    assert extra.cut_mm >= 5 * INCH
