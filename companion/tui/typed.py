"""Lengths typed on a screen: a bare number is in the maker's own unit there."""

from __future__ import annotations

from companion.core.lengths import read_length_mm
from companion.core.show_lengths import display_unit


def typed_mm(text: str, unit: str, *, above_zero: bool = False) -> float:
    """A typed length, mm. Raises LengthError."""
    return float(read_length_mm(text.strip(), display_unit(unit), above_zero=above_zero))
