"""The shipped designs' plans against the second computation."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.core.plan.planner import compile_plan
from companion.storage.design.files import read_design
from tests.core.test_planner_second_way import check_identities, check_second_way

PATTERNS = sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml"))


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_a_shipped_design_both_ways(path) -> None:
    design = read_design(path).design
    plan = compile_plan(design)
    check_identities(plan)
    check_second_way(design, plan)
