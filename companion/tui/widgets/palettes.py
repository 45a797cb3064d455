"""The colours of a drawn picture on the app's page."""

from __future__ import annotations

from typing import Any

from msgspec import Struct
from textual.app import App
from textual.color import Color

from companion.core.drawing.pixels import Palette
from companion.core.picture.colours import Colour, mixed
from companion.core.picture.marks import marks_of
from companion.core.plan.plan import Plan
from companion.tui.contrast import Ground
from companion.tui.themes import ground_of

_CORD_SHARE = 0.35  # how far cord without a colour of its own leans to the page


class PageColours(Struct, frozen=True):
    """The page that a picture is drawn on, the colour of its text, and its accent."""

    ground: Ground
    text: Colour
    accent: Colour


def page_colours(app: App[Any]) -> PageColours:
    """Those of the app's page."""
    theme = app.current_theme
    return PageColours(ground_of(app), _rgb(theme.foreground), _rgb(theme.success))


def palette_of(app: App[Any], plan: Plan) -> Palette:
    """The palette of a plan's beads on the app's page."""
    return palette_on(page_colours(app), plan)


def palette_on(page: PageColours, plan: Plan, lettered: bool = True) -> Palette:
    """Each bead's own colour, made to be seen on the page and, where beads are `lettered`, for a letter on it to be
    read; cord in the colour of the text, a little fainter."""
    ground, plain = page.ground, mixed(page.text, page.ground.page, _CORD_SHARE)
    colours = {mark.key: mark.colour or plain for mark in marks_of(plan.beads)}
    beads = {key: ground.body(colour) if lettered else ground.shape(colour) for key, colour in colours.items()}
    own = {} if lettered else {key: colour for key, colour in colours.items() if beads[key] != colour}
    return Palette(ground.page, page.accent, plain, beads, own)


def _rgb(colour: str | None) -> Colour:
    return Color.parse(colour or "#808080").rgb
