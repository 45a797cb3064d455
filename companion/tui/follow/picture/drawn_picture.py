"""The strand drawn in pixels around the present step, and below it the whole piece; only what shows is drawn."""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip

from companion.core.drawing.pixels import RING, Pixels, paint_row
from companion.core.drawing.row_ruler import row_ruler
from companion.core.drawing.strand import (
    DrawnStrand,
    drawn_strand,
    folding_scale,
    height_scale,
    largest_scale,
    least_scale,
)
from companion.core.picture.picture import progress
from companion.core.plan.plan import Plan
from companion.tui.themes import ground_of
from companion.tui.widgets.half_blocks import line_of
from companion.tui.widgets.palettes import palette_of

MARGIN = 3
BESIDE_THE_BODIES = 2  # the ruler above them, the pointer below
SHORTEST_BEAD, LONGEST_BEAD = 4, 14  # pixels, around the present step, where there is room for them
USUAL_HEIGHT, LONGEST_FROM_AFAR = 12, 48  # lines; pixels, where the picture has the page to itself
MOST_SCALE, MOST_FROM_AFAR = 6.0, 12.0  # pixels per mm
HERE = "▲ here"


class DrawnPicture(ScrollView, can_focus=False):
    """The stretch around the present step, a bead never less than four pixels long."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"drawn-picture--ruler"}

    def __init__(self, plan: Plan, *, classes: str | None = None) -> None:
        super().__init__(classes=classes)
        self.plan, self.entry, self.made, self.until = plan, 0, 0, 0
        self._strand: DrawnStrand | None = None
        self._rows: list[tuple[int, int]] = []
        self._painted: dict[int, Pixels] = {}

    def show(self, plan: Plan, entry: int, steps_made: int) -> None:
        """Show that entry with so many of its steps made; only what changes is drawn again."""
        made, until = progress(plan.strands[entry], steps_made)
        if (plan, entry, made, until) == (self.plan, self.entry, self.made, self.until) and self._strand:
            return
        if plan is not self.plan or entry != self.entry:
            self._strand = None
        self.plan, self.entry, self.made, self.until = plan, entry, made, until
        self._painted.clear()
        self._fit()
        self.refresh()

    def measured(self, room: int) -> tuple[DrawnStrand, list[tuple[int, int]]]:
        """The strand at the scale that this place has room for, and the elements of its rows. The strand is measured
        once for a place: a step moves only the window."""
        strand = self._strand or self._measure()
        return strand, [strand.window(room, self.made)]

    def _measure(self) -> DrawnStrand:
        usual = self.size.height <= USUAL_HEIGHT
        longest, most = (LONGEST_BEAD, MOST_SCALE) if usual else (LONGEST_FROM_AFAR, MOST_FROM_AFAR)
        wanted = max(least_scale(self.plan, self.entry, SHORTEST_BEAD), largest_scale(self.plan, self.entry, longest))
        tallest = 2 * (self.size.height - BESIDE_THE_BODIES) - 3
        fits = height_scale(self.plan, self.entry, max(3, tallest))
        return drawn_strand(self.plan, self.entry, min(wanted, most, fits))

    def on_resize(self, event: events.Resize) -> None:
        self._strand = None
        self._painted.clear()
        self._fit()

    @property
    def picture_scale(self) -> float:
        """Pixels per mm; 0 before it is laid out."""
        return self._strand.pixels_per_mm if self._strand else 0.0

    @property
    def lines_a_row(self) -> int:
        """Lines of the screen for each row of the strand."""
        return (self._strand.height + 3) // 2 + BESIDE_THE_BODIES if self._strand else 1

    def _fit(self) -> None:
        """Measure the strand for this place, and keep the present step in view."""
        if not self.size.width or not self.size.height:
            return
        room = max(12, self.size.width - MARGIN - 3)
        self._strand, self._rows = self.measured(room)
        self.virtual_size = Size(self.size.width, len(self._rows) * self.lines_a_row)
        row, top, height = self._row_of(self.made), self.scroll_offset.y, self.size.height
        if row * self.lines_a_row < top or (row + 1) * self.lines_a_row > top + height:
            self.scroll_to(y=row * self.lines_a_row, animate=False, immediate=True)

    def _row_of(self, element: int) -> int:
        return next((n for n, (first, end) in enumerate(self._rows) if first <= element < end), len(self._rows) - 1)

    def render_line(self, y: int) -> Strip:
        width, base, strand = self.size.width, self.rich_style, self._strand
        if strand is None:
            return Strip.blank(width, base)
        number, line = divmod(y + self.scroll_offset.y, self.lines_a_row)
        if number >= len(self._rows):
            return Strip.blank(width, base)
        return Strip([Segment(" " * MARGIN, base), *self._line(strand, number, line, base)]).adjust_cell_length(
            width, base
        )

    def _line(self, strand: DrawnStrand, number: int, line: int, base: Style) -> list[Segment]:
        row = self._rows[number]
        lead = RING + (strand.before.width if strand.before and not row[0] else 0)
        if line == 0:
            style = self.get_component_rich_style("drawn-picture--ruler")
            return [Segment(" " * lead, base), Segment(row_ruler(strand, row), style)]
        if line == self.lines_a_row - 1:
            is_here = row[0] <= self.made < row[1] or (self.made == row[1] == len(strand.order))
            column = lead + strand.begin(self.made) - strand.begin(row[0])
            return [Segment(" " * column + HERE if is_here else "", base + Style(bold=True))]
        if number not in self._painted:
            self._painted[number] = paint_row(strand, row, self.made, self.until, palette_of(self.app, self.plan))
        return line_of(self._painted[number], line - 1, ground_of(self.app), base)


class WholePiece(DrawnPicture):
    """The whole entry in as few rows as there is room for, with the place of the present step."""

    def measured(self, room: int) -> tuple[DrawnStrand, list[tuple[int, int]]]:
        if self._strand is not None:
            return self._strand, self._rows
        between = 2 * BESIDE_THE_BODIES + 3
        scale = folding_scale(self.plan, self.entry, room, 2 * self.size.height, between)
        strand = drawn_strand(self.plan, self.entry, min(scale, MOST_SCALE))
        return strand, strand.even_rows(room)
