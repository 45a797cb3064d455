"""Our JSON in lines against the standard library's."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.cli.json_text import json_text

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
