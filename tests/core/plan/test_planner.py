"""Every number of a plan against a second computation, and the contract's identities: random and shipped designs."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.core.plan.layout import LayoutCount
from companion.core.plan.planner import compile_plan
from companion.storage.design.files import read_design
from tests.core.oracles.plan_checks import check_identities, check_second_way
from tests.core.random_designs import random_design
from tests.examples import LONG

PATTERNS = sorted((Path(__file__).parents[3] / "patterns").glob("*.yaml"))


BLOCKS = 20 if LONG else 7  # of 25 designs each


@pytest.mark.parametrize("block", range(BLOCKS))
def test_random_designs_both_ways(block: int) -> None:
    for seed in range(25 * block, 25 * block + 25):
        design = random_design(seed)
        plan = compile_plan(design)
        check_identities(plan)
        check_second_way(design, plan)


def test_random_designs_reach_every_part() -> None:
    """The generator is worth something only while it draws all there is."""
    designs = [random_design(seed) for seed in range(25 * BLOCKS)]
    assert {strand.work for design in designs for strand in design.strands} == {"along", "from the middle"}
    assert {len(design.strands) for design in designs} == {1, 2, 3}
    assert len({strand.end.closure for design in designs for strand in design.strands}) == 10
    assert sum(any(LayoutCount.of(s.layout).holds_fit for s in design.strands) for design in designs) > 5 * BLOCKS
    assert {design.size.kind for design in designs if design.size} == {"length", "wrist", "neck"}


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_a_shipped_design_both_ways(path) -> None:
    design = read_design(path).design
    plan = compile_plan(design)
    check_identities(plan)
    check_second_way(design, plan)
