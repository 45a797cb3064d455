"""Lengths typed on a screen: a bare number is in the maker's own unit there."""

from __future__ import annotations

from companion.core.values.lengths import SIXTEENTH_INCH_MM, read_length_mm
from companion.core.values.show_lengths import display_unit


def ruler_step_mm(unit: str) -> float:
    """The least division of the maker's ruler, mm: a sixteenth of an inch, or a millimetre."""
    return SIXTEENTH_INCH_MM if display_unit(unit) == "in" else 1.0


def typed_mm(text: str, unit: str, *, above_zero: bool = False) -> float:
    """A typed length, mm. Raises LengthError."""
    return float(read_length_mm(text.strip(), display_unit(unit), above_zero=above_zero))
