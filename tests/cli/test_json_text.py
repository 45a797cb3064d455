"""Our JSON in lines against the standard library's."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.cli.json_text import json_text, long_json_text
from companion.core.plan.plan_json import plan_json
from companion.workshop import open_at

ATOMS = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text()
VALUES = st.recursive(
    ATOMS, lambda inner: st.lists(inner) | st.lists(inner).map(tuple) | st.dictionaries(st.text(), inner), max_leaves=30
)


@given(VALUES)
def test_as_the_standard_library_writes_it(value) -> None:
    assert json_text(value) == json.dumps(value, indent=2, allow_nan=False)


@pytest.mark.parametrize(
    ("value", "error"), [(float("nan"), ValueError), ([float("inf")], ValueError), ({"a": {1}}, TypeError)]
)
def test_what_is_no_json_is_refused(value, error) -> None:
    with pytest.raises(error):
        json_text(value)


def test_a_plan_is_written_so_to_the_letter(patterns: Path, tmp_path: Path) -> None:
    workshop = open_at(tmp_path)
    plans = [workshop.plan(path).plan for path in sorted(patterns.glob("*.yaml"))]
    assert len(plans) > 8
    for plan in plans:
        assert plan is not None
        assert long_json_text(plan_json(plan)) == json.dumps(plan_json(plan), indent=2, allow_nan=False)


@given(VALUES)
def test_a_long_value_is_written_in_other_digits_at_most(value) -> None:
    text = long_json_text(value)
    assert text.isascii()
    assert json.loads(text) == json.loads(json.dumps(value))
