"""The lines of a whole piece's drawing: made from values alone, so that a thread can make them."""

from __future__ import annotations

from msgspec import Struct
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from companion.core.drawing.closed_pixels import beads_with_room, paint_closed
from companion.core.drawing.pixels import Pixels
from companion.core.drawing.whole import InRows, beads_on, closed_where_good, in_rows
from companion.core.plan.plan import Plan
from companion.core.words.plan_words import drawn_in_part
from companion.tui.contrast import Ground
from companion.tui.widgets.half_blocks import line_of
from companion.tui.widgets.letter_strand import letter_lines
from companion.tui.widgets.palettes import PageColours, palette_on

MARGIN = 2
LEAST_COLUMNS = 30
BETWEEN = 2  # blank columns beside what stands inside the piece


class ToDraw(Struct, frozen=True):
    """What is to be drawn, and all that the drawing depends on. `inside`: what stands in the middle of a closed piece
    that leaves room for it; `steps_done`: so many are, None: all; `in_pixels`: else in letters; `lettered`: with
    letters on beads that have room for one."""

    plan: Plan | None
    inside: tuple[str, ...]
    steps_done: int | None
    columns: int
    lines: int
    in_pixels: bool
    lettered: bool
    colours: PageColours
    base: Style

    @property
    def ground(self) -> Ground:
        """What it is drawn on."""
        return self.colours.ground


def piece_lines(task: ToDraw) -> list[Strip]:
    """All lines of the place, the drawing in their middle."""
    found: list[Strip] = []
    if task.plan is not None and task.columns >= LEAST_COLUMNS and task.lines:
        found = _drawn(task, task.plan) if task.in_pixels else _lettered(task, task.plan)
    above = (task.lines - len(found)) // 2
    blank = Strip.blank(task.columns, task.base)
    return [*[blank] * above, *found, *[blank] * (task.lines - above - len(found))]


def _lettered(task: ToDraw, plan: Plan) -> list[Strip]:
    columns = task.columns - 2 * MARGIN
    lines = letter_lines(plan, columns, task.lines, task.ground, task.base, task.steps_done)
    return [_set_in(task, line, MARGIN) for line in lines]


def _drawn(task: ToDraw, plan: Plan) -> list[Strip]:
    width, height = task.columns - 2 * MARGIN, 2 * task.lines
    closed = closed_where_good(plan, width, height)
    if closed is None:
        palette = palette_on(task.colours, plan, task.lettered)
        return _in_rows(task, in_rows(plan, width, height, palette, task.steps_done))
    lettered = task.lettered and bool(beads_with_room(closed))
    palette = palette_on(task.colours, plan, lettered)
    return _with_inside(task, paint_closed(closed, palette, lettered, beads_on(plan, task.steps_done)))


def _in_rows(task: ToDraw, rows: InRows) -> list[Strip]:
    pictures = rows.pictures if task.lettered else [Pixels(picture.rows) for picture in rows.pictures]
    strips = [strip for picture in pictures for strip in _strips(task, picture, MARGIN)]
    if rows.beads < rows.all_beads:
        strips[-1:] = [_set_in(task, [Segment(drawn_in_part(rows.beads, rows.all_beads), task.base)], MARGIN)]
    return strips


def _strips(task: ToDraw, picture: Pixels, left: int) -> list[Strip]:
    lines = (line_of(picture, line, task.ground, task.base) for line in range(len(picture.rows) // 2))
    return [_set_in(task, line, left) for line in lines]


def _set_in(task: ToDraw, line: list[Segment], left: int) -> Strip:
    return Strip([Segment(" " * left, task.base), *line]).adjust_cell_length(task.columns, task.base)


def _with_inside(task: ToDraw, picture: Pixels) -> list[Strip]:
    """The lines of a closed piece with what stands inside it in their middle, where all of that has room."""
    edge = (task.columns - picture.width) // 2
    strips = _strips(task, picture, edge)
    top, columns = (len(strips) - len(task.inside)) // 2, max(map(len, task.inside), default=0)
    left = (picture.width - columns) // 2
    reach = slice(max(0, left - BETWEEN), left + columns + BETWEEN)
    covered = picture.rows[max(0, 2 * top) : 2 * (top + len(task.inside))]
    if top < 1 or left < BETWEEN or any(pixel for row in covered for pixel in row[reach]):
        return strips
    for number, text in enumerate(task.inside, top):
        written = Strip([Segment(text.center(columns), task.base + Style(bold=True))])
        before, after = strips[number].crop(0, edge + left), strips[number].crop(edge + left + columns)
        strips[number] = Strip.join([before, written, after])
    return strips
