"""The colours of a drawn picture on the app's page."""

from __future__ import annotations

from typing import Any

from textual.app import App
from textual.color import Color

from companion.core.drawing.pixels import Palette
from companion.core.picture.colours import Colour, mixed
from companion.core.picture.marks import marks_of
from companion.core.plan.plan import Plan
from companion.tui.themes import ground_of

_CORD_SHARE = 0.35  # how far cord without a colour of its own leans to the page


def palette_of(app: App[Any], plan: Plan, lettered: bool = True) -> Palette:
    """Each bead's own colour, made to be seen on the page and, where beads are `lettered`, for a letter on it to be
    read; cord in the colour of the text, a little fainter."""
    ground, theme = ground_of(app), app.current_theme
    text, accent = (_rgb(colour) for colour in (theme.foreground, theme.success))
    plain = mixed(text, ground.page, _CORD_SHARE)
    colours = {mark.key: mark.colour or plain for mark in marks_of(plan.beads)}
    beads = {key: ground.body(colour) if lettered else ground.shape(colour) for key, colour in colours.items()}
    own = {} if lettered else {key: colour for key, colour in colours.items() if beads[key] != colour}
    return Palette(ground.page, accent, plain, beads, own)


def _rgb(colour: str | None) -> Colour:
    return Color.parse(colour or "#808080").rgb
