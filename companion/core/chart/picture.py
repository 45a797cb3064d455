"""The chart in characters: measured minus planned, along the strand.

    ●  a reading          ○  one that is set aside          ◆  as the piece came out
    ░  what is still to come, 19 times in 20                ┻ ┳  the tolerance, open between them
    ▼  where something may have gone wrong                  ─  as planned

A reading beyond the rows stands in the outermost one as an arrow, ↑ or ↓. Every kind of mark is another character, so
that none is told by its colour alone.
"""

from __future__ import annotations

from bisect import bisect_left
from itertools import groupby
from typing import Literal

from msgspec import Struct

from companion.core.chart.drift import Drift, Foretold
from companion.core.chart.scale import RowScale, column_of, row_scale, ruler_numbers
from companion.core.values.measures.show_lengths import DisplayUnit, show

Kind = Literal["quiet", "reading", "aside", "band", "gate", "suspected", "here", "end"]
LEAST_ROWS, LEAST_COLUMNS = 8, 30
READING, ASIDE, CAME_OUT, BAND, SUSPECTED = "●", "○", "◆", "░", "▼"
_HERE = "▲ here"


class Run(Struct, frozen=True):
    """Characters of one kind in a row."""

    text: str
    kind: Kind


class ChartPicture(Struct, frozen=True):
    """The rows of a chart from the top, each in runs."""

    rows: tuple[tuple[Run, ...], ...]

    def __str__(self) -> str:
        return "\n".join("".join(run.text for run in row).rstrip() for row in self.rows)


def chart(drift: Drift, unit: DisplayUnit, columns: int = 60, rows: int = 10, suspicion: str = "") -> ChartPicture:
    """A drift in so many columns and rows of screen (30 by 8 at least). `suspicion`: the word of what may have gone
    wrong, beside its mark."""
    drawing = _Drawing(drift, unit, max(columns, LEAST_COLUMNS), max(rows, LEAST_ROWS))
    drawing.labels()
    drawing.nought_and_ruler()
    drawing.band()
    drawing.gate()
    drawing.suspected(suspicion)
    drawing.readings()
    return drawing.picture()


class _Drawing:
    """A chart while it is drawn, later marks over earlier ones."""

    def __init__(self, drift: Drift, unit: DisplayUnit, columns: int, rows: int) -> None:
        self.drift, self.unit, self.columns = drift, unit, columns
        self.first = 1 if drift.suspected else 0  # the row above is the suspicion's
        self.plotted = rows - 2 - self.first
        self.scale: RowScale = row_scale(drift, unit, self.plotted)
        self.label = {row: self._label(row) for row in range(self.scale.lowest, self.scale.highest + 1)}
        self.left = max(map(len, self.label.values())) + 1
        self.width = columns - self.left - 1  # of the strand; then the gate
        self.cells: list[list[tuple[str, Kind]]] = [[(" ", "quiet")] * columns for _ in range(rows)]

    def _label(self, row: int) -> str:
        if row % 2 and self.plotted > 5:
            return ""
        if row == 0:
            return "0"
        return f"{'+' if row > 0 else '−'}{show(abs(row) * self.scale.row_mm, self.unit)}"

    def put(self, row: int, column: int, text: str, kind: Kind) -> None:
        """A text at a row of the screen, as far as there is room."""
        for place, char in enumerate(text, start=column):
            if 0 <= place < self.columns:
                self.cells[row][place] = char, kind

    def on_screen(self, row: int) -> int:
        """The row of the screen for a row of the scale."""
        return self.first + self.scale.highest - row

    def column(self, place_mm: float) -> int:
        """The column of the screen for a place on the strand."""
        return self.left + column_of(place_mm, self.drift.length_mm, self.width)

    def labels(self) -> None:
        """The numbers at the left."""
        for row, label in self.label.items():
            self.put(self.on_screen(row), self.left - 1 - len(label), label, "quiet")

    def nought_and_ruler(self) -> None:
        """The quiet line of the plan, the ruler below, and where the work stands."""
        self.put(self.on_screen(0), self.left, "─" * self.width, "quiet")
        ruler = len(self.cells) - 2
        self.put(ruler, self.left, "─" * self.width, "quiet")
        for column, number in ruler_numbers(self.drift.length_mm, self.unit, self.width):
            if column + len(number) <= self.width:
                self.put(ruler, self.left + column, number, "quiet")
        self.put(ruler, self.columns - len(self.unit) - 1, f" {self.unit}", "quiet")
        if self.drift.coming:
            self.beside(len(self.cells) - 1, self.column(self.drift.now_mm), _HERE, "here")

    def beside(self, row: int, column: int, mark_and_word: str, kind: Kind) -> None:
        """A mark at a column, its word after it or, where there is no room, before it."""
        if column + len(mark_and_word) <= self.columns:
            self.put(row, column, mark_and_word, kind)
        else:
            self.put(row, column, mark_and_word[0], kind)
            word = mark_and_word[2:]
            self.put(row, max(0, column - 1 - len(word)), word[: max(0, column - 1)], kind)

    def band(self) -> None:
        """What is still to come, between its limits."""
        coming = self.drift.coming
        if not coming:
            return
        for column in range(self.column(self.drift.now_mm), self.left + self.width):
            place_mm = (column - self.left) / max(1, self.width - 1) * self.drift.length_mm
            low_mm, high_mm = _limits(coming, place_mm)
            low, high = (self.scale.row(mm) for mm in (low_mm, high_mm))
            for row in range(max(low, self.scale.lowest), min(high, self.scale.highest) + 1):
                self.put(self.on_screen(row), column, BAND if row else "┄", "band" if row else "quiet")

    def gate(self) -> None:
        """The tolerance at the end: walls, and the opening between them."""
        gate = self.drift.gate
        if gate is None:
            return
        low, high = self.scale.row(gate.low_mm), self.scale.row(gate.high_mm)
        for row in range(self.scale.lowest, self.scale.highest + 1):
            if row >= high:
                self.put(self.on_screen(row), self.columns - 1, "┻" if row == high else "┃", "gate")
            elif row <= low:
                self.put(self.on_screen(row), self.columns - 1, "┳" if row == low else "┃", "gate")

    def suspected(self, suspicion: str) -> None:
        """Where something may have gone wrong, and what."""
        suspected = self.drift.suspected
        if suspected is None:
            return
        column = self.column(suspected.planned_mm)
        self.beside(0, column, f"{SUSPECTED} {suspicion}", "suspected")
        for row in range(self.first, self.first + self.plotted):
            if self.cells[row][column][0] == " ":
                self.put(row, column, "┊", "suspected")

    def readings(self) -> None:
        """What was read, those that are believed over those that are set aside; and how it came out."""
        for one in sorted(self.drift.readings, key=lambda one: not one.set_aside):
            self.point(self.column(one.planned_mm), one.off_mm, ASIDE if one.set_aside else READING)
        if self.drift.finished_off_mm is not None:
            self.point(self.left + self.width - 1, self.drift.finished_off_mm, CAME_OUT)

    def point(self, column: int, off_mm: float, mark: str) -> None:
        """A point at its row; beyond the rows an arrow."""
        row, kind = self.scale.row(off_mm), _KINDS[mark]
        if row > self.scale.highest:
            row, mark = self.scale.highest, "↑"
        elif row < self.scale.lowest:
            row, mark = self.scale.lowest, "↓"
        self.put(self.on_screen(row), column, mark, kind)

    def picture(self) -> ChartPicture:
        """What is drawn, in runs."""
        return ChartPicture(
            tuple(
                tuple(
                    Run("".join(char for char, _ in run), kind) for kind, run in groupby(row, key=lambda cell: cell[1])
                )
                for row in self.cells
            )
        )


_KINDS: dict[str, Kind] = {READING: "reading", ASIDE: "aside", CAME_OUT: "end"}


def _limits(coming: tuple[Foretold, ...], place_mm: float) -> tuple[float, float]:
    """The band at a place: as worked out there, or straight between two places."""
    after = bisect_left(coming, place_mm, key=lambda one: one.planned_mm)
    if after == 0 or after == len(coming):
        off = coming[min(after, len(coming) - 1)].off
        return off.low95_mm, off.high95_mm
    one, other = coming[after - 1], coming[after]
    part = (place_mm - one.planned_mm) / (other.planned_mm - one.planned_mm)
    return (
        one.off.low95_mm + part * (other.off.low95_mm - one.off.low95_mm),
        one.off.high95_mm + part * (other.off.high95_mm - one.off.high95_mm),
    )
