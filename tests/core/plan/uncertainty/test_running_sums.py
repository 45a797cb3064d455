"""Running sums against the elements added up one by one."""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.plan.uncertainty.running_sums import running_sums
from companion.core.values.assumptions import USUAL
from companion.core.values.design import KNOT_KINDS, Bead, Knot, Space
from tests.core.random_designs import random_design


@pytest.mark.parametrize("seed", range(6))
def test_every_place_of_a_random_entry(seed: int) -> None:
    plan = compile_plan(random_design(seed))
    elements, kinds = plan.strands[0].elements, {kind.key: kind for kind in plan.beads}
    sums = running_sums(plan.cord, kinds, elements, USUAL)
    for made in range(0, len(elements) + 1, max(1, len(elements) // 20)):
        before = elements[:made]
        knots = [plan.cord.knot(element.kind) for element in before if isinstance(element, Knot)]
        beads_mm = [kinds[element.key].length_mm for element in before if isinstance(element, Bead)]
        bare_mm = sum(element.length_mm for element in before if isinstance(element, Space))
        over = sums.over(made)
        assert over.knot_mm == pytest.approx(sum(knot.length_mm for knot in knots))
        assert over.take_up_mm == pytest.approx(sum(knot.take_up_mm for knot in knots))
        assert over.length_mm == pytest.approx(sum(beads_mm) + bare_mm + over.knot_mm)
        assert over.knots == tuple(before.count(Knot(kind)) for kind in KNOT_KINDS)
        assert sum(over.bead_mm.values()) == pytest.approx(sum(beads_mm))
        assert sums.knot_number(made) == len(knots)
        scatter = sum((USUAL.bead_scatter_cv * mm) ** 2 for mm in beads_mm)
        scatter += sum(knot.length_scatter_mm**2 for knot in knots)
        assert sums.own_scatter_mm2(made, (1.0, 0.0, 0.0)) == pytest.approx(scatter)
    assert sums.all_knots == sum(isinstance(element, Knot) for element in elements)
    assert sums.all_beads == sum(isinstance(element, Bead) for element in elements)
