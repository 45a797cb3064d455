"""The piece that a draft comes to, drawn whole: in pixels where there is colour, in letters elsewhere."""

from __future__ import annotations

from rich.segment import Segment
from textual.strip import Strip
from textual.widget import Widget

from companion.core.drawing.pixels import Pixels, paint_row
from companion.core.drawing.strand import drawn_strand, folding_scale
from companion.core.plan.plan import Plan
from companion.tui.themes import draws, ground_of, terminal_of
from companion.tui.widgets.half_blocks import line_of
from companion.tui.widgets.letter_strand import letter_lines
from companion.tui.widgets.palettes import palette_of

MARGIN = 2
MOST_SCALE = 2.0  # pixels per mm


class Preview(Widget):
    """All of a plan's first entry, made; nothing where there is no plan yet."""

    def __init__(self) -> None:
        super().__init__()
        self.plan: Plan | None = None
        self._lines: list[list[Segment]] | None = None
        self._drawn_for: object = None  # the size that it was drawn for

    def show(self, plan: Plan | None) -> None:
        """Show that plan."""
        if plan != self.plan:
            self.plan, self._lines = plan, None
            self.refresh()

    def on_resize(self) -> None:
        self.refresh()  # what was drawn for the size before is drawn anew

    def render_line(self, y: int) -> Strip:
        if self._lines is None or self._drawn_for != self.size:
            self._drawn_for = self.size
            self._lines = self._drawn() if draws(terminal_of(self.app)) else self._lettered()
        width, base = self.size.width, self.rich_style
        segments = self._lines[y] if y < len(self._lines) else []
        return Strip([Segment(" " * MARGIN, base), *segments]).adjust_cell_length(width, base)

    def _drawn(self) -> list[list[Segment]]:
        if self.plan is None or self.size.width < 12 or self.size.height < 2:
            return []
        room = self.size.width - 2 * MARGIN - 2
        scale = min(MOST_SCALE, folding_scale(self.plan, 0, room, 2 * self.size.height, 2))
        strand = drawn_strand(self.plan, 0, scale)
        palette, ground = palette_of(self.app, self.plan), ground_of(self.app)
        lines: list[list[Segment]] = []
        for row in strand.rows(room):
            pixels: Pixels = paint_row(strand, row, len(strand.order) + 1, len(strand.order) + 1, palette)
            lines += [line_of(pixels, line, ground, self.rich_style) for line in range(len(pixels.rows) // 2)]
        return lines

    def _lettered(self) -> list[list[Segment]]:
        if self.plan is None or self.size.width < 12:
            return []
        columns, ground = self.size.width - 2 * MARGIN, ground_of(self.app)
        return letter_lines(self.plan, columns, self.size.height, ground, self.rich_style)
