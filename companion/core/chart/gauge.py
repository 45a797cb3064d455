"""What is being typed of a length, against the plan and the band of what is expected: one line.

●  hers        ░  where it is expected, 19 times in 20        ┃  the plan        ◀ ▶  hers, further out than the line
"""

from __future__ import annotations

from itertools import groupby

from msgspec import Struct

from companion.core.chart.picture import BAND, READING, Kind, Run
from companion.core.values.expected import Expected

PLANNED, FURTHER_DOWN, FURTHER_UP = "┃", "◀", "▶"
MARKS = f"{READING} {BAND} {PLANNED}"  # in the order in which the help explains them
LEAST_COLUMNS = 12
_LEAST_HALF_MM = 1.0
_BAND_SHARE, _PLAN_SHARE = 0.5, 0.9  # of the line from its middle on, at most


class Gauge(Struct, frozen=True):
    """A length that is typed, what is expected there, and what the plan says, all in mm."""

    typed_mm: float
    expected: Expected
    planned_mm: float


def gauge(found: Gauge, columns: int) -> tuple[Run, ...]:
    """The line, in so many columns (12 at least): what is expected in its middle."""
    columns = max(columns, LEAST_COLUMNS)
    middle, expected = (columns - 1) / 2, found.expected
    band_mm = max(expected.high95_mm - expected.mean_mm, expected.mean_mm - expected.low95_mm)
    half_mm = max(_LEAST_HALF_MM, band_mm / _BAND_SHARE, abs(found.planned_mm - expected.mean_mm) / _PLAN_SHARE)

    def column(length_mm: float) -> int:
        return round(middle + (length_mm - found.expected.mean_mm) / half_mm * middle)

    low, high = column(found.expected.low95_mm), column(found.expected.high95_mm)
    cells: list[tuple[str, Kind]] = [
        (BAND, "band") if low <= place <= high else ("─", "quiet") for place in range(columns)
    ]
    cells[column(found.planned_mm)] = PLANNED, "gate"
    hers = column(found.typed_mm)
    mark = FURTHER_DOWN if hers < 0 else FURTHER_UP if hers >= columns else READING
    cells[min(max(hers, 0), columns - 1)] = mark, "reading"
    return tuple(Run("".join(char for char, _ in run), kind) for kind, run in groupby(cells, key=lambda cell: cell[1]))
