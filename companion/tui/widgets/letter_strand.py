"""Strands in letters, on terminals that have no colours to draw them in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rich.segment import Segment
from rich.style import Style

from companion.core.picture.colours import Colour
from companion.core.picture.columns import strand_columns
from companion.core.picture.marks import marks_of
from companion.core.picture.picture import Picture, PictureRow, made_in_picture
from companion.core.plan.plan import Plan
from companion.tui.contrast import Ground
from companion.tui.widgets.bead_style import bead_style

_BOLD = Style(bold=True)


def cell_segments(
    row: PictureRow, colours: Mapping[str, Colour | None], ground: Ground, base: Style
) -> Iterator[Segment]:
    """The cells of one row, each bead in its own colour."""
    for cell in row.cells:
        style = base
        if cell.bead is not None:
            style = base + bead_style(colours.get(cell.bead), cell.char, cell.state == "made", ground)
        yield Segment(cell.char, style + _BOLD if cell.state == "present" else style)


def letter_rows(
    plan: Plan, columns: int, most_lines: int, steps_done: int | None = None
) -> list[tuple[str, PictureRow]]:
    """The rows of all strands of a plan, as many as there is room for; before each what it is called, for the first of
    several strands' rows. So many of the steps are done, None: all."""
    rows: list[tuple[str, PictureRow]] = []
    lines = 0
    for entry, strand in enumerate(plan.strands):
        picture = Picture(strand_columns(plan, entry), columns)
        made = min(len(strand.elements), made_in_picture(plan, entry, steps_done))
        for number in range(picture.rows()):
            name = strand.title if len(plan.strands) > 1 and number == 0 else ""
            lines += lines_of(name)
            if lines > most_lines:
                return rows
            rows.append((name, picture.row(number, made, made)))
    return rows


def lines_of(name: str) -> int:
    """Lines of the screen for a row of that name: itself, and its ruler."""
    return 3 if name else 2


def letter_lines(
    plan: Plan, columns: int, most_lines: int, ground: Ground, base: Style, steps_done: int | None = None
) -> list[list[Segment]]:
    """The same as lines of the screen, a ruler above each row."""
    colours = {mark.key: mark.colour for mark in marks_of(plan.beads)}
    lines: list[list[Segment]] = []
    for name, row in letter_rows(plan, columns, most_lines, steps_done):
        lines += [[Segment(name, base)]] if name else []
        lines += [[Segment(row.ruler, base)], list(cell_segments(row, colours, ground, base))]
    return lines
