"""Which set of colours a setting names."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.values.colour_sets import COLOUR_SETS, colour_set


@pytest.mark.parametrize("name", COLOUR_SETS)
def test_a_set_is_found_by_its_name(name):
    assert colour_set(name) == colour_set(f" {name.upper()} ") == colour_set(name.replace("-", " ")) == name


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("night, high contrast", "lamp-contrast"),  # the names that were in use before
        ("day, high contrast", "day-contrast"),
        ("night-contrast", "lamp-contrast"),
        ("dark", "lamp"),
        ("light, high-contrast", "day-contrast"),
    ],
)
def test_other_words_for_a_set(words, name):
    assert colour_set(words) == name


@pytest.mark.parametrize("words", ["", "contrast", "high", "lampe", "day lamp", "#fff", "textual-dark"])
def test_words_that_name_no_set(words):
    assert colour_set(words) is None


@given(st.text(max_size=200))
def test_any_text_names_a_set_or_none(words):
    assert colour_set(words) in (None, *COLOUR_SETS)
