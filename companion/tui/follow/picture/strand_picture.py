"""The strand to scale under its ruler, folded into rows; only the rows that show are drawn."""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip

from companion.core.picture.colours import Colour
from companion.core.picture.columns import StrandColumns, strand_columns
from companion.core.picture.marks import marks_of
from companion.core.picture.picture import Picture, PictureRow, progress
from companion.core.plan.plan import Plan
from companion.tui.themes import ground_of
from companion.tui.widgets.letter_strand import cell_segments

MARGIN = 3
LINES_A_ROW = 3
_BOLD = Style(bold=True)


class StrandPicture(ScrollView, can_focus=False):
    """One entry of a plan as it stands. In a place of one row it shows the stretch around here."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"strand-picture--ruler"}

    def __init__(self, plan: Plan, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.entry, self.made, self.until = 0, 0, 0
        self._rows: dict[int, PictureRow] = {}
        self._take(plan)

    def _take(self, plan: Plan) -> None:
        self.plan = plan
        self.colours: dict[str, Colour | None] = {mark.key: mark.colour for mark in marks_of(plan.beads)}
        self.indexes: dict[int, StrandColumns] = {}

    def show(self, plan: Plan, entry: int, steps_made: int) -> None:
        """Show that entry with so many of its steps made; only the rows that change are drawn again."""
        made, until = progress(plan.strands[entry], steps_made)
        same = plan is self.plan and entry == self.entry
        if same and (made, until) == (self.made, self.until) and self._rows:
            return
        if plan is not self.plan:
            self._take(plan)
        self.entry, self.made, self.until = entry, made, until
        self._rows.clear()
        if not same:
            self._fit()
        self._follow()
        self.refresh()

    @property
    def picture(self) -> Picture:
        """The picture at the present width."""
        if self.entry not in self.indexes:
            self.indexes[self.entry] = strand_columns(self.plan, self.entry)
        return Picture(self.indexes[self.entry], max(12, self.size.width - MARGIN - 2))

    @property
    def one_row(self) -> bool:
        """Whether there is room for one row only."""
        return self.size.height < 2 * LINES_A_ROW

    def on_resize(self, event: events.Resize) -> None:
        self._rows.clear()
        self._fit()
        self._follow()
        self.call_after_refresh(self._follow)  # by then it is known how far it can be scrolled

    def _fit(self) -> None:
        rows = 1 if self.one_row else self.picture.rows()
        self.virtual_size = Size(self.size.width, rows * LINES_A_ROW)

    def _follow(self) -> None:
        """Keep the present step in view; the picture moves only when it would leave."""
        if self.size.height == 0 or self.one_row:
            self.scroll_to(y=0, animate=False)
            return
        picture = self.picture
        row = picture.row_of(min(self.made, len(self.plan.strands[self.entry].elements)))
        top, height = self.scroll_offset.y, self.size.height
        if row * LINES_A_ROW < top or (row + 1) * LINES_A_ROW > top + height:
            self.scroll_to(y=max(0, (row - 1) * LINES_A_ROW), animate=False, immediate=True)

    def _row(self, number: int) -> PictureRow:
        if number not in self._rows:
            picture = self.picture
            if self.one_row:
                self._rows[number] = picture.window(self.made, self.until)
            else:
                self._rows[number] = picture.row(number, self.made, self.until)
        return self._rows[number]

    def render_line(self, y: int) -> Strip:
        width, base = self.size.width, self.rich_style
        number, line = divmod(y + self.scroll_offset.y, LINES_A_ROW)
        if number >= (1 if self.one_row else self.picture.rows()):
            return Strip.blank(width, base)
        row = self._row(number)
        if line == 0 and y + 1 >= self.size.height:
            return Strip.blank(width, base)  # a ruler with no strand under it tells nothing
        if line == 0:
            segments = [Segment(row.ruler, self.get_component_rich_style("strand-picture--ruler"))]
        elif line == 1:
            segments = list(cell_segments(row, self.colours, ground_of(self.app), base))
        else:
            segments = [Segment(row.pointer, base + _BOLD)]
        return Strip([Segment(" " * MARGIN, base), *segments]).adjust_cell_length(width, base)
