"""A string step in words, a case for each kind of element."""

from __future__ import annotations

import pytest

from companion.core.values.design import Bead, Knot, Space
from companion.core.values.element_words import string_step_text

B, K, S = Bead("b"), Knot("single"), Space(5.0)
NAMES = {"b": "Glass", "s": "Silver"}


@pytest.mark.parametrize(
    ("elements", "words"),
    [
        ([B, K], "Glass, then a single knot"),
        ([Bead("s"), Knot("double")], "Silver, then a double knot"),
        ([B, B, B, Bead("s"), K], "3 Glass, Silver, then a single knot"),
        ([K], "A single knot"),
        ([B, B], "2 Glass"),
        ([S, B, K], "5 mm of bare cord, Glass, then a single knot"),
        ([S], "5 mm of bare cord"),
    ],
)
def test_steps_in_words(elements, words) -> None:
    assert string_step_text(elements, NAMES, "mm") == words
