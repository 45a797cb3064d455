"""The colours of a drawn picture on the app's page."""

from __future__ import annotations

from typing import Any

from textual.app import App
from textual.color import Color

from companion.core.drawing.pixels import Palette, mixed
from companion.core.picture.colours import Colour
from companion.core.picture.marks import marks_of
from companion.core.plan.plan import Plan
from companion.tui.themes import ground_of

_CORD_SHARE = 0.35  # how far cord without a colour of its own leans to the page


def palette_of(app: App[Any], plan: Plan) -> Palette:
    """Each bead's own colour, made to be seen on the page; cord in the colour of the text, a little fainter."""
    ground, theme = ground_of(app), app.current_theme
    text, accent = (_rgb(colour) for colour in (theme.foreground, theme.success))
    plain = mixed(text, ground.page, _CORD_SHARE)
    beads = {mark.key: ground.body(mark.colour or plain) for mark in marks_of(plan.beads)}
    return Palette(ground.page, accent, plain, beads)


def _rgb(colour: str | None) -> Colour:
    return Color.parse(colour or "#808080").rgb
