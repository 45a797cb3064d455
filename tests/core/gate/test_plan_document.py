"""A compiled plan survives its document to the last bit, and a strange document is refused."""

from __future__ import annotations

import json

import pytest

from companion.core.gate.plan_document import from_document, to_document
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead
from tests.core.random_designs import random_design


@pytest.mark.parametrize("seed", range(40))
def test_there_and_back(seed: int) -> None:
    plan = compile_plan(random_design(seed))
    assert from_document(json.loads(json.dumps(to_document(plan)))) == plan


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"version": 2}, "a plan of version 2: only version 1 is understood"),
        ({"cord": 3}, "cord: a group of named values is expected"),
        ({"strands": [7]}, "strands: 1: a group of named values is expected"),
        ({"colour": "red"}, "«colour» is not known"),
    ],
)
def test_another_version_or_no_plan_is_refused_with_its_place(change: dict, words: str) -> None:
    document = json.loads(json.dumps(to_document(compile_plan(random_design(1)))))
    with pytest.raises(ValueError, match=words):
        from_document({**document, **change})


def test_a_bead_that_the_plan_does_not_describe_is_refused() -> None:
    plan = compile_plan(random_design(1))
    text = json.dumps(to_document(plan))
    key = next(element.key for element in plan.strands[0].elements if isinstance(element, Bead))
    assert text.count(f'"={key}"')
    with pytest.raises(ValueError, match="not among the beads"):
        from_document(json.loads(text.replace(f'"={key}"', '"=no such bead"', 1)))


@pytest.mark.parametrize(
    ("document", "words"), [({"version": 1}, "is missing"), ({}, "version None"), ([], "version None")]
)
def test_what_is_no_document_is_refused(document: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        from_document(document)
