"""The scales of the chart: what a row of it stands for, and where its ruler has numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor

from msgspec import Struct

from companion.core.chart.drift import Drift
from companion.core.values.measures.length_grammar import MM_PER_UNIT
from companion.core.values.measures.show_lengths import DisplayUnit
from companion.core.values.measures.units import SIXTEENTH_INCH_MM

# What a row may stand for, so that every row is a mark of the maker's ruler or a whole number of them.
_INCH_ROWS_MM = [n * SIXTEENTH_INCH_MM for n in (1, 2, 4, 8, 16, 32, 64, 96, 192, 384, 960)]
_METRIC_ROWS_MM = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0]
# So many times as far out as all that matters, and it is left outside: in its scale nothing else would be seen.
_FAR_GATE, _FAR_READING = 3.0, 2.0
_SLACK = 1e-9  # of a row: what sums of floats leave behind


class RowScale(Struct, frozen=True):
    """Rows of `row_mm` each, from `lowest` to `highest`, counted from nought."""

    row_mm: float
    lowest: int
    highest: int

    def row(self, off_mm: float) -> int:
        """The row that an off comes nearest to; it may lie outside."""
        return floor(off_mm / self.row_mm + 0.5)


def row_scale(drift: Drift, unit: DisplayUnit, rows: int) -> RowScale:
    """The finest scale in which all that matters of a drift has room in so many rows (3 or more), nought among them.

    What lies much further out than all that matters may lie outside: a reading that is set aside, a gate.
    """
    low_mm, high_mm = _span(drift)
    choices = _INCH_ROWS_MM if unit == "in" else _METRIC_ROWS_MM
    for row_mm in choices:
        scale = RowScale(row_mm, floor(low_mm / row_mm + _SLACK), ceil(high_mm / row_mm - _SLACK))
        if scale.highest - scale.lowest < rows:
            return _filled(scale, rows)
    coarsest = choices[-1]
    return _filled(RowScale(coarsest, max(scale.lowest, -(rows // 2)), min(scale.highest, rows // 2)), rows)


def _filled(scale: RowScale, rows: int) -> RowScale:
    """With the rows that are left over, half of them above."""
    spare = rows - 1 - (scale.highest - scale.lowest)
    return RowScale(scale.row_mm, scale.lowest - spare // 2, scale.highest + spare - spare // 2)


def _span(drift: Drift) -> tuple[float, float]:
    offs_mm = [0.0, *(one.off_mm for one in drift.readings if not one.set_aside)]
    for one in drift.coming:
        offs_mm += [one.off.low95_mm, one.off.high95_mm]
    if drift.finished_off_mm is not None:
        offs_mm.append(drift.finished_off_mm)
    far_mm = max(map(abs, offs_mm))
    gate_mm = (drift.gate.low_mm, drift.gate.high_mm) if drift.gate else ()
    if far_mm == 0 or all(abs(mm) <= _FAR_GATE * far_mm for mm in gate_mm):
        offs_mm += gate_mm
    offs_mm += [one.off_mm for one in drift.readings if one.set_aside and abs(one.off_mm) <= _FAR_READING * far_mm]
    return min(offs_mm), max(offs_mm)


def ruler_numbers(length_mm: float, unit: DisplayUnit, columns: int) -> Iterator[tuple[int, str]]:
    """Where a ruler of that length, drawn in so many columns, has numbers, and which; none touches the next."""
    unit_mm = float(MM_PER_UNIT[unit])
    widest = len(f"{length_mm / unit_mm:.0f}") + 4
    steps: Sequence[float] = [n * 10.0**power for power in range(7) for n in (1, 2, 5)]
    step = next((one for one in steps if one * unit_mm * (columns - 1) >= widest * length_mm), steps[-1])
    for number in range(floor(length_mm / (step * unit_mm) + _SLACK) + 1):
        yield column_of(number * step * unit_mm, length_mm, columns), f"{number * step:.0f}"


def column_of(place_mm: float, length_mm: float, columns: int) -> int:
    """The column, from 0 to `columns` - 1, of a place on a strand of that length."""
    if length_mm <= 0:
        return 0
    return min(columns - 1, max(0, floor(place_mm / length_mm * (columns - 1) + 0.5)))
