"""Lengths on the screen: the nearest 1/16 in, or 0.5 mm under 10 cm and 1 mm from there up.

Every function takes unrounded millimetres, finite ones; a length below nothing keeps its minus sign.
"""

from __future__ import annotations

from math import ceil, floor, gcd
from operator import attrgetter
from typing import Literal

from msgspec import Struct

from companion.core.values.measures.units import MM_PER_INCH, SIXTEENTH_INCH_MM

DisplayUnit = Literal["mm", "cm", "in"]

_DISPLAY: dict[str | None, DisplayUnit] = {
    None: "mm", "mm": "mm", "cm": "cm", "m": "cm", "in": "in", "ft": "in", "yd": "in",
}  # fmt: skip
_COARSE_FROM_MM = 100
_DUST_MM = 1e-6  # sums of floats leave this much behind: nothing on any ruler
_SIXTEENTHS_IN_WORDS = {4: "a quarter inch", 8: "half an inch", 12: "three quarters of an inch", 16: "an inch"}


class _Scale(Struct, frozen=True):
    """The divisions that lengths are shown to: how long one is, and how many make the unit."""

    division_mm: float
    per_unit: int


_SIXTEENTHS = _Scale(SIXTEENTH_INCH_MM, 16)
_METRIC: dict[DisplayUnit, tuple[_Scale, _Scale]] = {  # for short lengths, and from 10 cm up
    "mm": (_Scale(0.5, 2), _Scale(1.0, 1)),
    "cm": (_Scale(0.5, 20), _Scale(1.0, 10)),
}


def display_unit(unit: str | None) -> DisplayUnit:
    """The unit that a maker who writes in `unit` reads on the screen; mm where none is known. Raises KeyError."""
    return _DISPLAY[unit]


def show(length_mm: float, unit: DisplayUnit) -> str:
    """The length with its unit, such as "9 3/8 in", "6.5 mm" or "23.8 cm"; "under 1/16 in" where all but nothing."""
    return f"{show_number(length_mm, unit)} {unit}"


def show_number(length_mm: float, unit: DisplayUnit) -> str:
    """The same without its unit: for a column that says it once."""
    scale = _scale(length_mm, unit)
    count = _divisions(length_mm, scale)
    if not count and abs(length_mm) > _DUST_MM:
        return f"under {_digits(1, scale)}"
    return _digits(count, scale)


def show_up(length_mm: float, unit: DisplayUnit) -> str:
    """The length rounded up to what is quickly read off a ruler, for cutting and for tails: in inches to a quarter, to
    a whole one from 12 in up; else to 5 mm, to 1 cm from 30 cm up."""
    scale, count = _rounded_up(length_mm, unit)
    return f"{_digits(count, scale)} {unit}"


def rounded_up_mm(length_mm: float, unit: DisplayUnit) -> float:
    """The same length, mm."""
    scale, count = _rounded_up(length_mm, unit)
    return count * scale.division_mm


def _rounded_up(length_mm: float, unit: DisplayUnit) -> tuple[_Scale, int]:
    if unit == "in":
        scale, step = _SIXTEENTHS, 16 if length_mm > 12 * MM_PER_INCH else 4
    else:
        scale, step_mm = _scale(_COARSE_FROM_MM, unit), 10.0 if length_mm > 300 else 5.0
        step = round(step_mm / scale.division_mm)
    return scale, step * ceil((abs(length_mm) - _DUST_MM) / (step * scale.division_mm))


def number_and_unit(length_mm: float, unit: DisplayUnit) -> tuple[str, str]:
    """The length as `show` has it, to be set apart: ("9 3/8", "in")."""
    scale = _scale(length_mm, unit)
    return _digits(_divisions(length_mm, scale), scale), unit


def show_both(length_mm: float, unit: DisplayUnit) -> tuple[str, str]:
    """The length in the maker's unit, then in the other: inches for mm and cm, mm for inches."""
    return show(length_mm, unit), show(length_mm, "mm" if unit == "in" else "in")


def show_plus_minus(mean_mm: float, half_width_mm: float, unit: DisplayUnit) -> str:
    """A length with what it is uncertain by, such as "10 15/16 ± 1/8 in", both to one division.

    The half width is never shown as nothing: one division at the least.
    """
    scale = max(_scale(mean_mm, unit), _scale(half_width_mm, unit), key=attrgetter("division_mm"))
    half_width = max(1, _divisions(abs(half_width_mm), scale))
    return f"{_digits(_divisions(mean_mm, scale), scale)} ± {_digits(half_width, scale)} {unit}"


def over_or_short(length_mm: float, aim_mm: float, unit: DisplayUnit) -> str:
    """How far a length is from another: "2 mm over 200 mm", "3/8 in short of 11 in"."""
    over_mm = length_mm - aim_mm
    return f"{difference(over_mm, unit)} {'over' if over_mm > 0 else 'short of'} {show(aim_mm, unit)}"


def difference(length_mm: float, unit: DisplayUnit) -> str:
    """How much, whichever way, as a sentence says it: "a quarter inch", "5/16 in", "4 mm"."""
    length_mm = abs(length_mm)
    if unit == "in":
        words = _SIXTEENTHS_IN_WORDS.get(_divisions(length_mm, _SIXTEENTHS))
        return words or show(length_mm, unit)
    return show(length_mm, unit)


def difference_as_shown(length_mm: float, aim_mm: float, unit: DisplayUnit) -> str:
    """How far a length is from another, whichever way, as whoever subtracts the two as they are shown would say it."""
    scale = max(_scale(length_mm, unit), _scale(aim_mm, unit), key=attrgetter("division_mm"))
    count = abs(_divisions(length_mm, scale) - _divisions(aim_mm, scale))
    if not count or unit == "in":
        return difference(count * scale.division_mm or length_mm - aim_mm, unit)
    return f"{_digits(count, scale)} {unit}"


def _scale(length_mm: float, unit: DisplayUnit) -> _Scale:
    """The divisions that a length of this size is shown to."""
    if unit == "in":
        return _SIXTEENTHS
    short, long = _METRIC[unit]
    return short if abs(length_mm) < _COARSE_FROM_MM else long


def _divisions(length_mm: float, scale: _Scale) -> int:
    """The nearest whole number of divisions; halves away from nothing, so that both signs look alike."""
    divisions = floor(abs(length_mm) / scale.division_mm + 0.5)
    return -divisions if length_mm < 0 else divisions


def _digits(count: int, scale: _Scale) -> str:
    """So many divisions in the unit, without it: a mixed number in lowest terms for inches, else a decimal without
    idle noughts."""
    sign, size = ("−", -count) if count < 0 else ("", count)
    if scale is not _SIXTEENTHS:
        return f"{sign}{size / scale.per_unit:.2f}".rstrip("0").rstrip(".")
    whole, part = divmod(size, scale.per_unit)
    if not part:
        return f"{sign}{whole}"
    shared = gcd(part, scale.per_unit)
    fraction = f"{part // shared}/{scale.per_unit // shared}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"
