"""How a knot or a closure is worked, drawn with the names of its parts."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from msgspec import Struct
from msgspec.structs import replace
from rich.segment import Segment
from rich.style import Style
from textual.app import App
from textual.geometry import Size
from textual.strip import Strip

from companion.core.drawing.pixels import Palette
from companion.core.picture.colours import mixed
from companion.core.tying.knot_picture import KnotPicture, Written, knot_picture, lines_at, scale_for
from companion.core.tying.shown import KnotShown
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.half_blocks import line_of
from companion.tui.widgets.later_drawing import LaterDrawing
from companion.tui.widgets.palettes import CORD_SHARE, PageColours, page_colours

LEAST_COLUMNS, LEAST_LINES = 80, 24  # of a screen on which anything is drawn over a page to read
MOST_LINES, SHARE = 18, 0.46  # of a drawing; of the screen's lines


def drawn_lines(app: App[Any]) -> int:
    """How many lines a drawing may take on a page to read; 0 where there is neither room nor colour for it."""
    columns, lines = app.size
    if columns < LEAST_COLUMNS or lines < LEAST_LINES or not draws(terminal_of(app)):
        return 0
    return min(MOST_LINES, round(lines * SHARE))


class KnotToDraw(Struct, frozen=True):
    """What is to be drawn, and all that the drawing depends on."""

    shown: KnotShown
    scale: float
    columns: int
    colours: PageColours
    base: Style


class KnotDrawing(LaterDrawing[KnotToDraw]):
    """The drawing, as large as so many lines allow; no line at all where that is too small to be followed."""

    def __init__(self, shown: KnotShown, most_lines: int) -> None:
        super().__init__()
        self.shown, self.most_lines = shown, most_lines

    def show(self, shown: KnotShown, most_lines: int) -> None:
        """Show another one."""
        if (shown, most_lines) != (self.shown, self.most_lines):
            self.shown, self.most_lines = shown, most_lines
            self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        scale = scale_for(width, self.most_lines)
        return lines_at(scale) if scale else 0

    def wanted(self) -> KnotToDraw:
        scale = scale_for(self.size.width, self.most_lines)
        return KnotToDraw(self.shown, scale, self.size.width, page_colours(self.app), self.rich_style)

    @staticmethod
    def drawn(wanted: KnotToDraw) -> list[Strip]:
        return list(_lines(wanted))

    def render_line(self, y: int) -> Strip:
        """The one drawn before stands until the next is there: a knot beside another bead is nearly the same. Not in
        another set of colours."""
        drawn, asked = self._drawn, self._asked
        if drawn and asked and y < len(self._lines) and replace(drawn, shown=asked.shown) == asked:
            return self._lines[y]
        return super().render_line(y)


@lru_cache(maxsize=16)  # the knot beside each kind of bead, step after step
def _lines(wanted: KnotToDraw) -> tuple[Strip, ...]:
    page, ground = wanted.colours, wanted.colours.ground
    cord = mixed(page.text, ground.page, CORD_SHARE)
    palette = Palette(ground.page, page.accent, cord, {"": ground.body(wanted.shown.colour or cord)})
    picture = knot_picture(wanted.shown, wanted.scale, palette) if wanted.scale else None
    if picture is None:
        return ()
    return tuple(_line(wanted, picture, line) for line in range(len(picture.pixels.rows) // 2))


def _line(wanted: KnotToDraw, picture: KnotPicture, line: int) -> Strip:
    strip = Strip(line_of(picture.pixels, line, wanted.colours.ground, wanted.base))
    strip = strip.adjust_cell_length(wanted.columns, wanted.base)
    for name in picture.names:
        if name.line == line:
            strip = _named(strip, name, wanted.base)
    return strip


def _named(strip: Strip, name: Written, base: Style) -> Strip:
    end = name.column + len(name.text)
    written = Strip([Segment(name.text, base)])
    return Strip.join([strip.crop(0, name.column), written, strip.crop(end, strip.cell_length)])
