"""How a bead's own colour is put on the screen: the letter and the form are there without it."""

from __future__ import annotations

from functools import cache

from rich.color import Color
from rich.style import Style

from companion.core.picture.colours import Colour, ink_on


@cache
def bead_style(colour: Colour | None, char: str, made: bool) -> Style:
    """The style of one character of a bead: solid where it is made, its colour on the letter where it is coming."""
    if colour is None:
        return Style(bold=made)
    if made and char not in "█▌":
        return Style(color=_rich(ink_on(colour)), bgcolor=_rich(colour), bold=True)
    return Style(color=_rich(colour))


def _rich(colour: Colour) -> Color:
    return Color.from_rgb(*colour)
