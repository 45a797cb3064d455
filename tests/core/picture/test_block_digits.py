"""Digits three lines tall, and five."""

from __future__ import annotations

import pytest

from companion.core.picture.block_digits import block_digits


def test_ten_digits_of_equal_size_and_all_different() -> None:
    shapes = [block_digits(str(digit)) for digit in range(10)]
    assert {tuple(len(line) for line in shape) for shape in shapes} == {(3, 3, 3)}
    assert len(set(shapes)) == 10


def test_as_it_looks() -> None:
    assert block_digits("27") == ("▀▀█ ▀▀█", "█▀▀  █ ", "▀▀▀  ▀ ")


def test_a_sign_that_is_none() -> None:
    with pytest.raises(KeyError):
        block_digits("x")


def test_twice_as_large_is_the_same_twice_each_way() -> None:
    small, large = block_digits("3/8"), block_digits("3/8", times=2)
    assert [len(small), len(large)] == [3, 5]
    assert {len(line) for line in large} == {2 * len(small[0])}
    assert _filled(large) == 4 * _filled(small)


def _filled(lines: tuple[str, ...]) -> int:
    """How many pixels are set."""
    return sum({"█": 2, "▀": 1, "▄": 1, " ": 0}[sign] for line in lines for sign in line)


def test_a_point_is_narrow_and_low() -> None:
    assert block_digits(".") == (" ", " ", "▀")
    assert block_digits("9.5") == ("█▀█   █▀▀", "▀▀█   ▀▀█", "▀▀▀ ▀ ▀▀▀")
