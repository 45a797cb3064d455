"""Lengths on the screen and for the ear: the nearest 1/16 in, or 0.5 mm under 10 cm and 1 mm from there up.

Every function takes unrounded millimetres, finite ones; a length below nothing keeps its minus sign.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor
from typing import Literal

from companion.core.values.lengths import MM_PER_UNIT

DisplayUnit = Literal["mm", "cm", "in"]

_DISPLAY: dict[str | None, DisplayUnit] = {
    None: "mm", "mm": "mm", "cm": "cm", "m": "cm", "in": "in", "ft": "in", "yd": "in",
}  # fmt: skip
_SIXTEENTH_IN_MM = MM_PER_UNIT["in"] / 16
_FINE_MM, _COARSE_MM = Fraction(1, 2), Fraction(1)
_COARSE_FROM_MM = 100
_DUST_MM = 1e-6  # sums of floats leave this much behind: nothing on any ruler
_SPOKEN = {"mm": "millimetre", "cm": "centimetre", "in": "inch"}
_IN_WORDS = {
    Fraction(1, 4): "a quarter inch",
    Fraction(1, 2): "half an inch",
    Fraction(3, 4): "three quarters of an inch",
    Fraction(1): "an inch",
}


def display_unit(unit: str | None) -> DisplayUnit:
    """The unit that a maker who writes in `unit` reads on the screen; mm where none is known. Raises KeyError."""
    return _DISPLAY[unit]


def show(length_mm: float, unit: DisplayUnit) -> str:
    """The length with its unit, such as "7 3/4 in", "6.5 mm" or "19.7 cm"; "under 1/16 in" where all but nothing."""
    if _is_slight(length_mm, unit):
        return f"under {_digits(_division_mm(length_mm, unit), unit)} {unit}"
    return f"{_digits(_rounded_mm(length_mm, _division_mm(length_mm, unit)), unit)} {unit}"


def show_up(length_mm: float, unit: DisplayUnit) -> str:
    """The length rounded up to what is quickly read off a ruler, for cutting and for tails: in inches to a quarter, to
    a whole one from 12 in up; else to 5 mm, to 1 cm from 30 cm up."""
    if unit == "in":
        division_mm = MM_PER_UNIT["in"] if length_mm > 12 * 25.4 else MM_PER_UNIT["in"] / 4
    else:
        division_mm = Fraction(10) if length_mm > 300 else Fraction(5)
    divisions = ceil((abs(length_mm) - _DUST_MM) / float(division_mm))
    return f"{_digits(divisions * division_mm, unit)} {unit}"


def show_both(length_mm: float, unit: DisplayUnit) -> tuple[str, str]:
    """The length in the maker's unit, then in the other: inches for mm and cm, mm for inches."""
    return show(length_mm, unit), show(length_mm, "mm" if unit == "in" else "in")


def show_plus_minus(mean_mm: float, half_width_mm: float, unit: DisplayUnit) -> str:
    """A length with what it is uncertain by, such as "7 15/16 ± 1/8 in", both to one division.

    The half width is never shown as nothing: one division at the least.
    """
    division_mm = max(_division_mm(mean_mm, unit), _division_mm(half_width_mm, unit))
    half_width = max(division_mm, _rounded_mm(abs(half_width_mm), division_mm))
    return f"{_digits(_rounded_mm(mean_mm, division_mm), unit)} ± {_digits(half_width, unit)} {unit}"


def spoken(length_mm: float, unit: DisplayUnit) -> str:
    """The length for the ear: "7 and 3/4 inches", "1/4 of an inch", "182 millimetres"."""
    slight = _is_slight(length_mm, unit)
    division_mm = _division_mm(length_mm, unit)
    shown_mm = division_mm if slight else _rounded_mm(length_mm, division_mm)
    size = abs(shown_mm) / MM_PER_UNIT[unit]
    before = "under " if slight else "minus " if shown_mm < 0 else ""
    if unit == "in" and 0 < size < 1:
        return f"{before}{size} of an inch"
    plural = "" if size == 1 else "es" if unit == "in" else "s"
    digits = _digits(abs(shown_mm), unit).replace(" ", " and ")
    return f"{before}{digits} {_SPOKEN[unit]}{plural}"


def difference(length_mm: float, unit: DisplayUnit) -> str:
    """How much, whichever way, as a sentence says it: "a quarter inch", "5/16 in", "4 mm"."""
    length_mm = abs(length_mm)
    if unit == "in":
        inches = _rounded_mm(length_mm, _SIXTEENTH_IN_MM) / MM_PER_UNIT["in"]
        return _IN_WORDS.get(inches) or show(length_mm, unit)
    return show(length_mm, unit)


def _division_mm(length_mm: float, unit: DisplayUnit) -> Fraction:
    """The least division that a length of this size is shown to."""
    if unit == "in":
        return _SIXTEENTH_IN_MM
    return _FINE_MM if abs(length_mm) < _COARSE_FROM_MM else _COARSE_MM


def _rounded_mm(length_mm: float, division_mm: Fraction) -> Fraction:
    """To the nearest division; halves away from nothing, so that both signs look alike."""
    divisions = floor(abs(length_mm) / float(division_mm) + 0.5)
    return divisions * division_mm * (-1 if length_mm < 0 else 1)


def _is_slight(length_mm: float, unit: DisplayUnit) -> bool:
    """More than nothing, yet too little for the least division."""
    return abs(length_mm) > _DUST_MM and not _rounded_mm(length_mm, _division_mm(length_mm, unit))


def _digits(rounded_mm: Fraction, unit: DisplayUnit) -> str:
    """The number alone, in the unit: a mixed number in lowest terms for inches, else a decimal without idle noughts."""
    sign = "−" if rounded_mm < 0 else ""
    size = abs(rounded_mm) / MM_PER_UNIT[unit]
    if unit != "in":
        return f"{sign}{float(size):.2f}".rstrip("0").rstrip(".")
    whole, part = divmod(size, 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"
