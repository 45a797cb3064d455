"""The plans of the shipped designs, and of random ones."""

from __future__ import annotations

from pathlib import Path

from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.storage.design.files import read_design
from tests.core.random_designs import random_design

PATTERNS = sorted((Path(__file__).parents[3] / "patterns").glob("*.yaml"))
NAMES = [path.stem for path in PATTERNS]


def shipped(name: str) -> Plan:
    """The plan of the shipped design of that name."""
    design = read_design(PATTERNS[NAMES.index(name)]).design
    assert design is not None
    return compile_plan(design)


def random_plan(seed: int) -> Plan:
    """The plan of a random design."""
    return compile_plan(random_design(seed))
