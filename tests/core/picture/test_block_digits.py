"""Digits three lines tall."""

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
