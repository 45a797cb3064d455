"""A list to choose from, of any length: only what shows is drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct
from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from companion.core.picture.colours import Colour
from companion.tui.contrast import Ground
from companion.tui.themes import draws, ground_of, terminal_of
from companion.tui.widgets.wrapping import padded, shortened

if TYPE_CHECKING:  # loaded with what reads the beads, once a list stands
    from companion.core.drawing.pixels import Pixels
    from companion.core.picture.strip import StripCell


class StripPlace(Struct, frozen=True):
    """Where in a row's text its strip of beads goes, or words that come later, in columns."""

    at: int
    columns: int


class DrawnLine(Struct, frozen=True):
    """One line of a picture, which stands in a row behind its text."""

    pixels: Pixels
    line: int


class Row(Struct, frozen=True):
    """One line of a list. `value` None: a heading, or a `detail` of the row above; neither is chosen. `mark`: a warning
    at its end; `strip`: the place of its beads, `words` that of its words, which stand there once they are known."""

    text: str
    value: object = None
    mark: str = ""
    detail: bool = False
    muted: bool = False
    strip: StripPlace | None = None
    words: StripPlace | None = None
    drawn: DrawnLine | None = None


NOWHERE = -1


class Rows(ScrollView, can_focus=True, inherit_bindings=False):
    """A list with a cursor. Says which row the hand chose; moves by itself.

    The arrows are the screen's: inherited bindings would scroll a long list past its cursor. In a `numbered` list the
    rows are set in as they say themselves, and the cursor is nowhere until it is moved.
    """

    COMPONENT_CLASSES = {"rows--muted"}  # noqa: RUF012

    class Chosen(Message):
        """The row under the cursor was chosen by a click."""

    class Moved(Message):
        """Another row is under the cursor."""

    def __init__(self, rows: Sequence[Row] = (), *, id: str | None = None, numbered: bool = False) -> None:
        super().__init__(id=id)
        self.rows: tuple[Row, ...] = ()
        self.numbered = numbered
        self.beads_of: Callable[[Row], Sequence[StripCell]] = lambda row: ()
        self.words_of: Callable[[Row], str] = lambda row: ""
        self.set_class(numbered, "-numbered")
        self.cursor = NOWHERE
        self.set_rows(rows)

    def set_rows(self, rows: Sequence[Row], chosen: object = None) -> None:
        """Show other rows; the cursor stays in sight, and with its value or the one that takes its place, `chosen`,
        where that is there."""
        before, place = self.chosen, self.cursor
        wanted = before if chosen is None else chosen
        self.rows = tuple(rows)
        self.virtual_size = Size(1, len(self.rows))
        places = [n for n, row in enumerate(self.rows) if row.value is not None]
        same = [n for n in places if self.rows[n].value == wanted]
        self.cursor = (same or ([] if self.numbered else places) or [NOWHERE])[0]
        self.refresh()
        if self.cursor != place:
            self.show_cursor()
        if self.chosen != before:
            self.post_message(self.Moved())

    @property
    def seen(self) -> Sequence[Row]:
        """The rows that show."""
        top = self.scroll_offset.y
        return self.rows[top : top + self.size.height]

    @property
    def values(self) -> list[object]:
        """What can be chosen, from top to bottom."""
        return [row.value for row in self.rows if row.value is not None]

    def begin_with(self, value: object) -> None:
        """Put the cursor on that value, where it is there."""
        places = [n for n, row in enumerate(self.rows) if row.value is not None and row.value == value]
        if places:
            self.move(places[0] - self.cursor)

    @property
    def chosen(self) -> object:
        """The value under the cursor, None where there is none."""
        return self.rows[self.cursor].value if 0 <= self.cursor < len(self.rows) else None

    def move(self, by: int) -> None:
        """Move the cursor to the next row that can be chosen; past the last one, on to what is written there."""
        place = self.cursor + by
        while 0 <= place < len(self.rows) and self.rows[place].value is None:
            place += by
        if 0 <= place < len(self.rows):
            self.cursor = place
            self.show_cursor()
            self.post_message(self.Moved())
        else:
            self.scroll_relative(y=by, animate=False)

    def turn_page(self, by: int) -> None:
        """Move the cursor a page down or up: to the last row on the way that can be chosen; where none is, to the next
        one, and where the cursor is nowhere the list alone."""
        lines = max(1, self.size.height - 1)
        if self.cursor == NOWHERE:
            self.scroll_relative(y=by * lines, animate=False)
            return
        way = range(self.cursor + by, min(max(-1, self.cursor + by * (lines + 1)), len(self.rows)), by)
        passed = [place for place in way if self.rows[place].value is not None]
        self.move(passed[-1] - self.cursor if passed else by)

    def to_first(self) -> None:
        """Put the cursor on the first row that can be chosen."""
        self._to(0)

    def to_last(self) -> None:
        """Put it on the last one."""
        self._to(-1)

    def _to(self, place: int) -> None:
        places = [n for n, row in enumerate(self.rows) if row.value is not None]
        if places:
            self.cursor = places[place]
            self.show_cursor()
            self.post_message(self.Moved())

    def show_cursor(self) -> None:
        """Scroll to the row under the cursor, its details and the headings above the first one."""
        if self.cursor == NOWHERE:
            return
        top = 0 if all(row.value is None for row in self.rows[: self.cursor]) else self.cursor
        end = self.cursor + 1
        while end < len(self.rows) and self.rows[end].detail:
            end += 1
        self.refresh()
        self.scroll_to_region(Region(0, top, 1, end - top), animate=False, force=True)

    def on_resize(self) -> None:
        self.show_cursor()

    def on_click(self, event: events.Click) -> None:
        place = event.y + self.scroll_offset.y
        while 0 < place < len(self.rows) and self.rows[place].detail:
            place -= 1
        if 0 <= place < len(self.rows) and self.rows[place].value is not None:
            self.cursor = place
            self.refresh()
            self.post_message(self.Moved())
            self.post_message(self.Chosen())

    def render_line(self, y: int) -> Strip:
        place, width = y + self.scroll_offset.y, self.size.width
        base = self.rich_style
        if place >= len(self.rows):
            return Strip.blank(width, base)
        row = self.rows[place]
        here = place == self.cursor and row.value is not None
        style = base + Style(bold=here or (row.value is None and not row.detail), reverse=here)
        if row.muted:
            style += self.get_component_rich_style("rows--muted", partial=True)
        lead = self._lead(row, here)
        room = max(0, width - len(lead) - (len(row.mark) + 2 if row.mark else 1))
        segments = [Segment(lead + padded(shortened(self._text(row), room), room), style)]
        if row.mark:
            segments.append(Segment(f" {row.mark} ", style + Style(bold=True)))
        line = Strip(segments).adjust_cell_length(width, base)
        if row.drawn:
            return self._with_picture(row.drawn, line, len(lead) + len(row.text), base)
        return self._with_beads(row, line, len(lead), base)

    def _text(self, row: Row) -> str:
        """The row's text, with the words that have come meanwhile in their place."""
        words = self.words_of(row) if row.words else ""
        if not row.words or not words:
            return row.text
        return padded(row.text, row.words.at) + shortened(words, row.words.columns)

    def _with_picture(self, drawn: DrawnLine, line: Strip, begin: int, base: Style) -> Strip:
        """The line with its part of a picture behind the text."""
        from companion.tui.widgets.half_blocks import line_of

        picture = Strip(line_of(drawn.pixels, drawn.line, ground_of(self.app), base))
        return Strip.join([line.crop(0, begin), picture]).adjust_cell_length(line.cell_length, base)

    def _with_beads(self, row: Row, line: Strip, lead: int, base: Style) -> Strip:
        """The line with the row's own beads in their place, on the page's colour even under the cursor."""
        cells = self.beads_of(row) if row.strip else ()
        if not row.strip or not cells:
            return line
        drawn, ground, begin = draws(terminal_of(self.app)), ground_of(self.app), lead + row.strip.at
        beads = [
            Segment(
                "".join(cell.form if drawn else cell.letter for cell in alike), base + _style(colour, ground, drawn)
            )
            for colour, alike in groupby(cells, lambda cell: cell.colour)
        ]
        blank = Segment(" " * (row.strip.columns - len(cells)), base)
        return Strip.join([line.crop(0, begin), Strip([*beads, blank]), line.crop(begin + row.strip.columns)])

    def _lead(self, row: Row, here: bool) -> str:
        """What a row begins with."""
        if self.numbered:
            return "› " if here else "  "
        if row.value is None:
            return "     " if row.detail else " "
        return " › " if here else "   "


@cache
def _style(colour: Colour | None, ground: Ground, drawn: bool) -> Style:
    """The colour of a bead's form, or of its letter, which has to be read."""
    if colour is None:
        return Style()
    return Style(color=Color.from_rgb(*(ground.shape if drawn else ground.letter)(colour)))
