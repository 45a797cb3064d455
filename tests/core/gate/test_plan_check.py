"""Every plan that is made here can have been made here, and one figure changed can't."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from companion.core.gate.plan_check import plan_fault
from companion.core.gate.plan_document import from_document, to_document
from companion.core.plan.planner import CannotPlan, compile_plan
from companion.workshop import open_at
from tests.core.random_designs import random_design


def kept(plan):
    """The plan as a piece keeps it."""
    return from_document(json.loads(json.dumps(to_document(plan))))


def test_the_shipped_designs(patterns: Path, data_folder: Path) -> None:
    plans = [open_at(data_folder).plan(path).plan for path in sorted(patterns.glob("*.yaml"))]
    assert [plan_fault(kept(plan)) for plan in plans] == [""] * len(plans)


@pytest.mark.parametrize("first", range(0, 300, 100))
def test_random_designs(first: int) -> None:
    for seed in range(first, first + 100):
        try:
            plan = compile_plan(random_design(seed))
        except CannotPlan:
            continue
        assert plan_fault(kept(plan)) == "", seed


@pytest.mark.parametrize(
    "key",
    ["strand_length_mm", "take_up_mm", "start_tail_mm", "end_tail_mm", "working_allowance_mm", "margin_mm", "cut_mm"],
)
def test_a_length_of_a_strand_that_does_not_follow(skerry: Path, data_folder: Path, key: str) -> None:
    document = to_document(open_at(data_folder).plan(skerry).plan)
    document["strands"][0][key] += 1.0
    assert plan_fault(from_document(document)) != ""


@pytest.mark.parametrize("place", [5, 6, 7, 8])
def test_a_figure_of_a_step_that_does_not_follow(skerry: Path, data_folder: Path, place: int) -> None:
    document = json.loads(json.dumps(to_document(open_at(data_folder).plan(skerry).plan)))
    document["strands"][0]["steps"][9][place] += 1
    assert plan_fault(from_document(document)) != ""
