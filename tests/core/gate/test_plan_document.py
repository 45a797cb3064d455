"""A compiled plan survives its document to the last bit, and a strange document is refused."""

from __future__ import annotations

import json

import pytest

from companion.core.gate.plan_document import from_document, to_document
from companion.core.plan.planner import compile_plan
from tests.core.random_designs import random_design


@pytest.mark.parametrize("seed", range(40))
def test_there_and_back(seed: int) -> None:
    plan = compile_plan(random_design(seed))
    assert from_document(json.loads(json.dumps(to_document(plan)))) == plan


def test_another_version_or_no_plan_is_refused() -> None:
    document = to_document(compile_plan(random_design(1)))
    for strange in ({**document, "version": 2}, {"version": 1}, {}, {**document, "cord": 3}):
        with pytest.raises(ValueError, match=r"version|not a plan"):
            from_document(strange)
