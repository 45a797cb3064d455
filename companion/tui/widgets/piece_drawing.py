"""The whole piece drawn, closed as it is worn, in rows where it is too long, in letters without colours.
Drawn after the page stands, so that nobody waits for it."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from companion.core.drawing.closed_pixels import beads_with_room, paint_closed
from companion.core.drawing.pixels import Pixels
from companion.core.drawing.whole import InRows, closed_where_good, in_rows
from companion.core.plan.plan import Plan
from companion.core.words.plan_words import drawn_in_part
from companion.tui.themes import draws, ground_of, terminal_of
from companion.tui.widgets.half_blocks import line_of
from companion.tui.widgets.letter_strand import letter_lines, letter_rows, lines_of
from companion.tui.widgets.palettes import palette_of

MARGIN = 2
LEAST_LINES, SHARE = 11, 0.5  # of the screen's lines, where the rest of the page leaves them
LEAST_COLUMNS = 30
BETWEEN = 2  # blank columns beside what stands inside the piece


class PieceDrawing(Widget):
    """All of a plan, made. What stands `inside` is shown only where the drawn piece leaves room for it. `rest`: the
    lines of the screen that are for other things; `lettered`: with letters on beads that have room for one."""

    def __init__(self, plan: Plan | None, inside: Sequence[str] = (), *, rest: int = 0, lettered: bool = True) -> None:
        super().__init__()
        self.plan, self.inside, self.rest, self.lettered = plan, tuple(inside), rest, lettered
        self._lines: list[Strip] = []
        self._drawn_for: object = None
        self._asked_for: object = None

    def show(self, plan: Plan | None, inside: Sequence[str] = ()) -> None:
        """Show that plan."""
        if (plan, tuple(inside)) != (self.plan, self.inside):
            self.plan, self.inside = plan, tuple(inside)
            self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        room = max(LEAST_LINES, min(viewport.height - self.rest, round(viewport.height * SHARE)))
        if self.plan is not None and not draws(terminal_of(self.app)):
            return sum(lines_of(name) for name, _ in letter_rows(self.plan, max(1, width - 2 * MARGIN), room))
        return room

    def render_line(self, y: int) -> Strip:
        wanted = (self.plan, self.inside, self.size, self.app.theme)
        if wanted != self._drawn_for and wanted != self._asked_for:
            self._asked_for = wanted
            self.call_after_refresh(self._draw, wanted)
        width, base = self.size.width, self.rich_style
        if self._drawn_for != wanted or y >= len(self._lines):
            return Strip.blank(width, base)
        return self._lines[y]

    def _draw(self, wanted: object) -> None:
        if wanted != self._asked_for:
            return
        base, (width, height) = self.rich_style, self.size
        found: list[Strip] = []
        if self.plan is not None and width >= LEAST_COLUMNS and height:
            found = self._drawn(self.plan, base) if draws(terminal_of(self.app)) else self._lettered(self.plan, base)
        above = [Strip.blank(width, base)] * ((height - len(found)) // 2)
        self._lines, self._drawn_for = [*above, *found], wanted
        self.refresh()

    def _lettered(self, plan: Plan, base: Style) -> list[Strip]:
        lines = letter_lines(plan, self.size.width - 2 * MARGIN, self.size.height, ground_of(self.app), base)
        return [self._set_in(line, MARGIN, base) for line in lines]

    def _drawn(self, plan: Plan, base: Style) -> list[Strip]:
        width, height = self.size.width - 2 * MARGIN, 2 * self.size.height
        closed = closed_where_good(plan, width, height)
        if closed is None:
            return self._in_rows(in_rows(plan, width, height, palette_of(self.app, plan, self.lettered)), base)
        lettered = self.lettered and bool(beads_with_room(closed))
        picture = paint_closed(closed, palette_of(self.app, plan, lettered), lettered)
        return self._with_inside(self._strips(picture, (self.size.width - picture.width) // 2, base), picture, base)

    def _in_rows(self, rows: InRows, base: Style) -> list[Strip]:
        pictures = rows.pictures if self.lettered else [Pixels(picture.rows) for picture in rows.pictures]
        strips = [strip for picture in pictures for strip in self._strips(picture, MARGIN, base)]
        if rows.beads < rows.all_beads:
            strips[-1:] = [self._set_in([Segment(drawn_in_part(rows.beads, rows.all_beads), base)], MARGIN, base)]
        return strips

    def _strips(self, picture: Pixels, left: int, base: Style) -> list[Strip]:
        ground = ground_of(self.app)
        lines = (line_of(picture, line, ground, base) for line in range(len(picture.rows) // 2))
        return [self._set_in(line, left, base) for line in lines]

    def _set_in(self, line: list[Segment], left: int, base: Style) -> Strip:
        return Strip([Segment(" " * left, base), *line]).adjust_cell_length(self.size.width, base)

    def _with_inside(self, strips: list[Strip], picture: Pixels, base: Style) -> list[Strip]:
        """The lines with what stands inside the piece in their middle, where all of it has room."""
        top = (len(strips) - len(self.inside)) // 2
        columns = max(map(len, self.inside), default=0)
        left = (picture.width - columns) // 2
        reach = slice(max(0, left - BETWEEN), left + columns + BETWEEN)
        covered = picture.rows[max(0, 2 * top) : 2 * (top + len(self.inside))]
        if top < 1 or left < BETWEEN or any(pixel for row in covered for pixel in row[reach]):
            return strips
        left += (self.size.width - picture.width) // 2
        for number, text in enumerate(self.inside, top):
            written = Strip([Segment(text.center(columns), base + Style(bold=True))])
            before, after = strips[number].crop(0, left), strips[number].crop(left + columns)
            strips[number] = Strip.join([before, written, after])
        return strips
