"""A length after an option is read whole; what is no part of it stays where it is."""

from __future__ import annotations

import pytest

from companion.cli.whole_lengths import whole_lengths

OPTIONS = {"--free", "--left"}


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("--free 23 3/4", ["--free", "23 3/4"]),
        ("1 5/8 --free 17 1/2", ["1", "5/8", "--free", "17 1/2"]),
        ("--free 37 cm skerry 86 mm", ["--free", "37 cm", "skerry", "86", "mm"]),
        ("--free=17 1/2 in 1 5/8", ["--free=17 1/2 in", "1", "5/8"]),
        ("--left 2 ft 6 in --learn", ["--left", "2 ft 6 in", "--learn"]),
        ("--left 9 skerry 7 5/8", ["--left", "9", "skerry", "7", "5/8"]),
        ("skerry 7 5/8", ["skerry", "7", "5/8"]),
        ("--ruler 1 3/4", ["--ruler", "1", "3/4"]),
        ("", []),
    ],
)
def test_what_can_only_belong_to_the_length_is_put_to_it(typed: str, read: list[str]) -> None:
    assert whole_lengths(typed.split(), OPTIONS) == read
