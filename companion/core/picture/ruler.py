"""The ruler above the strand's picture, and the scales that it comes in."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import ceil, floor

from msgspec import Struct

from companion.core.values.measures.length_grammar import MM_PER_UNIT
from companion.core.values.measures.show_lengths import DisplayUnit


class Scale(Struct, frozen=True):
    """How large the strand is drawn. A label at every inch or centimetre, a tick between every `minor_columns`."""

    unit: DisplayUnit
    major_columns: int
    minor_columns: int

    @property
    def columns_per_mm(self) -> Fraction:
        """Exact: sixteen columns an inch, or six a centimetre, in the usual scales."""
        return self.major_columns / MM_PER_UNIT["in" if self.unit == "in" else "cm"]

    @property
    def major_mm(self) -> float:
        """Between two numbers, mm."""
        return float(MM_PER_UNIT["in" if self.unit == "in" else "cm"])

    @property
    def minor_mm(self) -> float:
        """Between two ticks, mm."""
        return self.major_mm * self.minor_columns / self.major_columns

    def label(self, number: int) -> str:
        """The label at that inch or centimetre."""
        return str(number * (10 if self.unit == "mm" else 1))


def _scales(unit: DisplayUnit, *columns: tuple[int, int]) -> tuple[Scale, ...]:
    return tuple(Scale(unit, major, minor) for major, minor in columns)


_CENTIMETRES = ((6, 3), (10, 5), (20, 4), (30, 3))
# The usual scale first; the larger ones are for strands whose parts would be narrower than a column in it.
SCALES: dict[DisplayUnit, tuple[Scale, ...]] = {
    "in": _scales("in", (16, 4), (24, 6), (32, 4), (48, 6), (64, 4)),
    "cm": _scales("cm", *_CENTIMETRES),
    "mm": _scales("mm", *_CENTIMETRES),
}
ALIKE = 1e-9  # of a step between two marks


def ruler(scale: Scale, columns: int, begin_mm: float, end_mm: float, column_at: Callable[[float], int]) -> str:
    """The ruler over `columns` columns of the picture, over which the strand runs from one place to another:
    "0 in┬───┬───┬───1───┬". `column_at`: the column, from the first of these, at which a place in mm lies.

    A mark stands in the column whose left edge it is nearest. The first number has its unit; a number that would be
    cut off, or run into the one before, is a tick.
    """
    drawn, unit, free = ["─"] * columns, f" {scale.unit}", 0  # `free`: the first column after the last number
    per_major = scale.major_columns // scale.minor_columns
    first, last = ceil(begin_mm / scale.minor_mm - ALIKE), floor(end_mm / scale.minor_mm + ALIKE)
    for number in range(first, last + 1):
        column = column_at(number * scale.minor_mm)
        if not free <= column < columns:
            continue
        major, ticks = divmod(number, per_major)
        label = "┬" if ticks else scale.label(major) + unit
        if column + len(label) > columns or (not ticks and 0 < free == column):
            label = "┬"
        elif not ticks:
            unit, free = "", column + len(label)
        drawn[column : column + len(label)] = label
    return "".join(drawn)
