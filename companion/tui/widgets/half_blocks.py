"""Pixels on the terminal: two of them in each character, one above the other."""

from __future__ import annotations

from functools import lru_cache

from rich.color import Color
from rich.segment import Segment
from rich.style import Style

from companion.core.drawing.pixels import Pixels
from companion.core.picture.colours import Colour
from companion.tui.contrast import Ground

UPPER, LOWER = "▀", "▄"


def line_of(pixels: Pixels, line: int, ground: Ground, base: Style) -> list[Segment]:
    """One line of characters: rows 2·line and 2·line + 1 of the picture, the letters that lie there on top."""
    above, below = pixels.rows[2 * line], pixels.rows[2 * line + 1]
    letters = {letter.column: letter for letter in pixels.letters if letter.row // 2 == line}
    segments: list[Segment] = []
    for column, (upper, lower) in enumerate(zip(above, below, strict=True)):
        letter = letters.get(column)
        if letter is not None and (body := upper or lower) is not None:
            segments.append(Segment(letter.text, base + _letter_style(body, ground, not letter.coming)))
        elif upper is None and lower is None:
            segments.append(Segment(" ", base))
        elif upper is None:
            segments.append(Segment(LOWER, base + _style(lower, None)))
        else:
            segments.append(Segment(UPPER, base + _style(upper, lower)))
    return list(Segment.simplify(segments))


@lru_cache(maxsize=4096)
def _style(front: Colour | None, back: Colour | None) -> Style:
    return Style(color=Color.from_rgb(*front) if front else None, bgcolor=Color.from_rgb(*back) if back else None)


@lru_cache(maxsize=1024)
def _letter_style(body: Colour, ground: Ground, bold: bool) -> Style:
    plate = body if ground.terminal.contrast(ground.ink(body), body) >= ground.letters else ground.letter(body)
    return Style(color=Color.from_rgb(*ground.ink(plate)), bgcolor=Color.from_rgb(*plate), bold=bold)
