"""Every fifth bead: both readings, and no third."""

from __future__ import annotations

import pytest

from companion.core.draft.every import every_readings, read_every


def test_of_five_the_fifth_or_one_after_every_five() -> None:
    assert [(one.most, one.pattern) for one in every_readings(5, "P", "S")] == [(4, "PPPPS"), (5, "PPPPPS")]


@pytest.mark.parametrize("text", ["", "x", "-5", "5.0", "٥", "9" * 10_000])
def test_what_is_no_number(text: str) -> None:
    with pytest.raises(ValueError, match="no such number"):
        read_every(text)


def test_a_number_that_is_typed() -> None:
    assert read_every(" 5 ") == 5


@pytest.mark.parametrize("every", [-1, 0, 1, 100])
def test_nothing_between(every: int) -> None:
    with pytest.raises(ValueError, match="every second"):
        every_readings(every, "P", "S")
