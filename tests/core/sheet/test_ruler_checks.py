"""After which steps a sheet asks for the ruler."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.piece import Piece
from companion.core.sheet.ruler_checks import ruler_checks
from companion.core.values.assumptions import USUAL
from tests.core.sheet.shipped_plans import NAMES, random_plan, shipped


@given(st.integers(0, 10**6))
def test_they_go_forward_between_beads_and_end_with_the_last_one(seed: int) -> None:
    plan = random_plan(seed)
    for entry, strand in enumerate(plan.strands):
        strings = [plan.piece_step(entry, step.number) for step in strand.steps if step.kind == "string"]
        checks = ruler_checks(plan, entry)
        assert set(checks) <= set(strings)
        assert list(checks) == sorted(set(checks))
        assert checks[-1:] == tuple(strings[-1:])


@pytest.mark.parametrize("name", NAMES)
def test_none_comes_right_after_another_but_before_the_closing(name: str) -> None:
    plan = shipped(name)
    for entry in range(len(plan.strands)):
        checks = ruler_checks(plan, entry)
        assert all(after - before >= USUAL.reading_least_knots for before, after in pairwise(checks[:-1]))


@pytest.mark.parametrize("name", NAMES)
def test_the_first_is_where_a_screen_would_ask(name: str) -> None:
    plan = shipped(name)
    checks = ruler_checks(plan, 0)
    begun = next(step.number for step in plan.strands[0].steps if step.kind == "string")
    assert Forecaster(plan).outlook(Piece(plan.total_steps, begun)).next_reading_step == checks[0]


def test_a_reading_as_expected_makes_the_next_stretch_longer() -> None:
    checks = ruler_checks(shipped("bell-rock-rope"), 0)
    stretches = [after - before for before, after in pairwise(checks[:4])]
    assert stretches == sorted(stretches)
    assert stretches[-1] > stretches[0]
