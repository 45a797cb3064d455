"""What comes again and again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.maths.repeats import longest_repeat


@pytest.mark.parametrize(
    ("units", "place", "found"),
    [
        ("aaab", 0, (1, 3)),
        ("ababc", 0, (2, 2)),
        ("xababab", 1, (2, 3)),
        ("abcd", 0, (1, 1)),
        ("aabaab", 0, (3, 2)),
        ("a", 0, (1, 1)),
    ],
)
def test_by_hand(units, place, found) -> None:
    assert longest_repeat(units, place, 4) == found


@given(st.text("ab", min_size=1, max_size=20), st.integers(1, 5))
def test_it_really_repeats_and_nothing_takes_in_more(units, most) -> None:
    length, times = longest_repeat(units, 0, most)
    assert units.startswith(units[:length] * times)
    assert length <= most
    others = (
        one * many
        for one in range(1, most + 1)
        for many in range(2, 21)
        if units.startswith(units[:one] * many) and one * many <= len(units)
    )
    assert all(other <= length * times for other in others) or (length, times) == (1, 1)
