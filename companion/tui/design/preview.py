"""The strands that a draft comes to, drawn whole as they lie: in pixels where there is colour, in letters elsewhere."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from rich.segment import Segment
from textual.strip import Strip
from textual.widget import Widget

from companion.core.drawing.lying import as_it_lies
from companion.core.drawing.pixels import RING, paint_row
from companion.core.drawing.strand import drawn_strand, folding_scale, largest_scale
from companion.core.picture.columns import strand_columns
from companion.core.picture.marks import marks_of
from companion.core.picture.picture import Picture, PictureRow
from companion.core.plan.plan import Plan
from companion.tui.themes import draws, ground_of, terminal_of
from companion.tui.widgets.half_blocks import line_of
from companion.tui.widgets.letter_strand import cell_segments
from companion.tui.widgets.palettes import palette_of

MARGIN = 2
MOST_SCALE = 2.0  # pixels per mm
BETWEEN = 3  # pixels of a row that are no strand: the ring above and below, and one that makes them even
LEAST_WIDTH = 12
LEAST_DRAWN = 4  # lines: in fewer, letters show more than pixels
LEAST_BEAD = 3.0  # pixels of the longest bead
HERE = "▲ here"

Line = list[Segment]


class Cursor(Struct, frozen=True):
    """A place on the picture: the strand, and the element of it (both from 0)."""

    strand: int
    element: int


class Preview(Widget):
    """All strands of a plan, made; nothing where there is no plan yet. Where there is a cursor, its row shows. In
    letters where its longest bead would have fewer pixels than `least_bead`; `most_scale` in pixels per mm."""

    def __init__(
        self,
        plan: Plan | None = None,
        *,
        least_bead: float = LEAST_BEAD,
        most_scale: float = MOST_SCALE,
        id: str | None = None,
    ) -> None:
        super().__init__(id=id)
        self.plan, self.least_bead, self.most_scale = plan, least_bead, most_scale
        self.cursor: Cursor | None = None
        self._lines: list[Line] | None = None
        self._drawn_for: object = None  # the size that it was drawn for

    def show(self, plan: Plan | None, cursor: Cursor | None = None) -> None:
        """Show that plan, and where in it the cursor is."""
        if plan != self.plan or cursor != self.cursor:
            self.plan, self.cursor, self._lines = plan, cursor, None
            self.refresh()

    def on_resize(self) -> None:
        self.refresh()  # what was drawn for the size before is drawn anew

    def render_line(self, y: int) -> Strip:
        if self._lines is None or self._drawn_for != self.size:
            self._drawn_for = self.size
            self._lines = self._in_sight()
        width, base = self.size.width, self.rich_style
        segments = self._lines[y] if y < len(self._lines) else []
        return Strip([Segment(" " * MARGIN, base), *segments]).adjust_cell_length(width, base)

    def _in_sight(self) -> list[Line]:
        """The lines that there is room for, those around the cursor where there is one."""
        if self.plan is None or self.size.width < LEAST_WIDTH or self.size.height < 1:
            return []
        plan, lines, here = as_it_lies(self.plan), list[Line](), 0
        scale = self._scale(plan) if draws(terminal_of(self.app)) else None
        rows = self._lettered(plan) if scale is None else self._drawn(plan, scale)
        for row, has_cursor in rows:
            if self.size.height == 1:
                return row[-1:]  # the strand itself, without its ruler
            if self.cursor is None and lines and len(lines) + len(row) > self.size.height:
                break  # no row is cut through
            lines += row
            if has_cursor:
                here = len(lines)
        return lines[max(0, here - self.size.height) :]

    def _element_in(self, entry: int) -> int | None:
        return self.cursor.element if self.cursor and self.cursor.strand == entry else None

    def _named(self, plan: Plan, entry: int) -> list[Line]:
        return [[Segment(plan.strands[entry].title, self.rich_style)]] if len(plan.strands) > 1 else []

    # -- in pixels ----------------------------------------------------------------------------------------------------

    @property
    def _room(self) -> int:
        return self.size.width - 2 * MARGIN - 2

    def _scale(self, plan: Plan) -> float | None:
        """Pixels per mm, as large as there is room for; None where letters show more than pixels would."""
        entries = range(len(plan.strands))
        lines = self.size.height // len(entries) - (len(entries) > 1)
        if lines < LEAST_DRAWN:
            return None
        scale = min(self.most_scale, *(folding_scale(plan, entry, self._room, 2 * lines, BETWEEN) for entry in entries))
        return scale if scale >= max(largest_scale(plan, entry, self.least_bead) for entry in entries) else None

    def _drawn(self, plan: Plan, scale: float) -> Iterator[tuple[list[Line], bool]]:
        """The lines of each row, and whether the cursor is in it."""
        room, palette, ground = self._room, palette_of(self.app, plan), ground_of(self.app)
        for entry in range(len(plan.strands)):
            strand, here = drawn_strand(plan, entry, scale), self._element_in(entry)
            made, until = (len(strand.order) + 1,) * 2 if here is None else (here, here + 1)
            lead = self._named(plan, entry)
            for row in strand.even_rows(room):
                pixels = paint_row(strand, row, made, until, palette, "made")
                lines = [line_of(pixels, line, ground, self.rich_style) for line in range(len(pixels.rows) // 2)]
                is_here = here is not None and row[0] <= here < row[1]
                if is_here and here is not None:
                    before = strand.before.width if strand.before and not row[0] else 0
                    part = strand.part(here)
                    column = RING + before + strand.begin(here) - strand.begin(row[0]) + (part.width - 1) // 2
                    lines.append([Segment(_pointer(column, room), self.rich_style)])
                yield [*lead, *lines], is_here
                lead = []

    # -- in letters ---------------------------------------------------------------------------------------------------

    def _lettered(self, plan: Plan) -> Iterator[tuple[list[Line], bool]]:
        """The same in letters, a ruler above each row."""
        columns, base, ground = self.size.width - 2 * MARGIN, self.rich_style, ground_of(self.app)
        colours = {mark.key: mark.colour for mark in marks_of(plan.beads)}
        for entry, strand in enumerate(plan.strands):
            picture, here = Picture(strand_columns(plan, entry), columns), self._element_in(entry)
            all_made = len(strand.elements)
            lead = self._named(plan, entry)
            for number in range(picture.rows()):
                row = picture.row(number, all_made, all_made)
                is_here = here is not None and picture.row_of(here) == number
                lines = [[Segment(row.ruler, base)]]
                if is_here and here is not None:
                    shown = picture.row(number, here, here + 1)
                    row = _with_present(row, shown)
                    lines += [list(cell_segments(row, colours, ground, base)), [Segment(shown.pointer, base)]]
                else:
                    lines.append(list(cell_segments(row, colours, ground, base)))
                yield [*lead, *lines], is_here
                lead = []


def _pointer(column: int, room: int) -> str:
    if column + len(HERE) <= room:
        return " " * column + HERE
    return f"{HERE[2:]:>{max(0, column - 1)}} {HERE[0]}"


def _with_present(made: PictureRow, shown: PictureRow) -> PictureRow:
    """A row all made, but for the element under the cursor."""
    cells = (now if now.state == "present" else all_made for now, all_made in zip(shown.cells, made.cells, strict=True))
    return PictureRow(made.ruler, tuple(cells), shown.here_column, shown.pointer)
