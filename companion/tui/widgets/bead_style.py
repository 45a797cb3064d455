"""How a bead's own colour is put on the screen: the letter and the form are there without it."""

from __future__ import annotations

from functools import cache

from rich.color import Color
from rich.style import Style

from companion.core.picture.colours import Colour
from companion.tui.contrast import Ground

_SHAPES = "█▌"


@cache
def bead_style(colour: Colour | None, char: str, made: bool, ground: Ground) -> Style:
    """The style of one character of a bead: solid where it is made, its colour on the letter where it is coming.

    What of the colour would be lost on that ground is made lighter or darker until it can be seen, a letter until it
    can be read.
    """
    if colour is None:
        return Style(bold=made, reverse=made and char not in _SHAPES)
    if not made:
        return Style(color=_rich(ground.letter(colour)))
    body = ground.body(colour)
    if char in _SHAPES:
        return Style(color=_rich(body))
    return Style(color=_rich(ground.ink(body)), bgcolor=_rich(body), bold=True)


def _rich(colour: Colour) -> Color:
    return Color.from_rgb(*colour)
