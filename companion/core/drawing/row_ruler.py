"""The ruler above a row of the drawn strand. Its marks carry the rounding of the parts to whole pixels."""

from __future__ import annotations

from math import ceil, floor

from companion.core.drawing.strand import DrawnStrand
from companion.core.values.measures.units import MM_PER_INCH

# In millimetres: between two numbers, and between two ticks.
STEPS_MM = {"in": (MM_PER_INCH, MM_PER_INCH / 4), "cm": (10.0, 5.0), "mm": (10.0, 5.0)}
MM_PER = {"in": MM_PER_INCH, "cm": 10.0, "mm": 1.0}
ALIKE = 1e-9  # of a step between two marks
_LEAST_TICK_PIXELS = 3
_NUMBER_PIXELS = 5


def ruler_marks(strand: DrawnStrand, row: tuple[int, int]) -> list[tuple[int, str]]:
    """The marks over the elements `row` (first, after the last): the pixel of each, counted from the first element's,
    and its number, "" for a tick."""
    first, end = row
    if first == end:
        return []
    begin, width = strand.begin(first), strand.begin(end) - strand.begin(first)
    major_mm, minor_mm = _steps(strand)
    begin_mm, end_mm = strand.ends_mm[first - 1] if first else 0.0, strand.ends_mm[end - 1]
    marks = []
    for number in range(ceil(begin_mm / minor_mm - ALIKE), floor(end_mm / minor_mm + ALIKE) + 1):
        column = round(strand.pixel_at_mm(number * minor_mm)) - begin
        if end == len(strand.order):
            column = min(column, width - 1)
        if 0 <= column < width:
            numbered = abs(number * minor_mm / major_mm - round(number * minor_mm / major_mm)) < ALIKE
            marks.append((column, f"{round(number * minor_mm / MM_PER[strand.unit])}" if numbered else ""))
    return marks


def row_ruler(strand: DrawnStrand, row: tuple[int, int]) -> str:
    """The ruler over the elements `row` (first, after the last), a character to a pixel, from the first element on.

    Its first number says the unit: "3 in┬───┬───4".
    """
    width = strand.begin(row[1]) - strand.begin(row[0])
    drawn, unit, free_from = ["─"] * width, f" {strand.unit}", 0
    for column, label in ruler_marks(strand, row):
        text = label + unit if label else "┬"
        if label:
            unit = ""
        if free_from <= column <= width - len(text):  # no mark on the number before
            drawn[column : column + len(text)] = text
            free_from = column + len(text)
    return "".join(drawn)


def _steps(strand: DrawnStrand) -> tuple[float, float]:
    """What lies between two numbers and between two ticks, mm, coarse enough for the scale."""
    major_mm, minor_mm = STEPS_MM[strand.unit]
    while major_mm * strand.pixels_per_mm < _NUMBER_PIXELS:
        major_mm *= 5
    while minor_mm * strand.pixels_per_mm < _LEAST_TICK_PIXELS:
        minor_mm *= 2
    return major_mm, min(minor_mm, major_mm) if (major_mm / minor_mm).is_integer() else major_mm
