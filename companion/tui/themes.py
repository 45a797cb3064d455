"""Four sets of colours. On plan a screen is nearly without colour but for the beads; colour never stands alone."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace
from rich.color import ColorSystem
from rich.console import COLOR_SYSTEMS
from textual.app import App
from textual.color import Color
from textual.theme import Theme

from companion.core.picture.colours import readable_on
from companion.tui.contrast import LETTERS, LETTERS_HIGH, SHAPES, Ground, Terminal

# For each set: whether it is dark; then text, the page, a line to type in, labels, what is well, what is worth
# watching, what needs attention now. What is well is blue: some people can't tell green from amber or red.
_SETS = {
    "lamp": (True, "#d8d8d2", "#14181b", "#1d2327", "#9aa7b0", "#9cc0dc", "#e0b050", "#ff8a70"),
    "day": (False, "#1c1f22", "#fbfaf6", "#efece4", "#5a6670", "#1f5a88", "#8a5a00", "#a3200d"),
    "lamp-contrast": (True, "#ffffff", "#000000", "#202020", "#ffffff", "#a8d8ff", "#ffff00", "#ff8080"),
    "day-contrast": (False, "#000000", "#ffffff", "#e8e8e8", "#000000", "#003f6b", "#5a3a00", "#900000"),
}


def terminal_of(app: App[Any]) -> Terminal:
    """What the app's terminal makes of colours."""
    return Terminal(COLOR_SYSTEMS[app.console.color_system or "truecolor"], app.no_color)


def draws(terminal: Terminal) -> bool:
    """Whether beads can be drawn in light and shade: enough colours, and none of them unwanted."""
    return not terminal.grey and terminal.colours in (ColorSystem.EIGHT_BIT, ColorSystem.TRUECOLOR)


def themes_on(terminal: Terminal) -> tuple[Theme, ...]:
    """The four sets, each of their colours to be read on that terminal."""
    return tuple(_theme(name, terminal) for name in _SETS)


def ground_of(app: App[Any]) -> Ground:
    """What the app's beads are drawn on just now."""
    return ground_in(app.current_theme.name, terminal_of(app))


def ground_in(name: str, terminal: Terminal) -> Ground:
    """What beads are drawn on in that set, on that terminal."""
    return Ground(Color.parse(_SETS[name][2]).rgb, LETTERS_HIGH if name.endswith("contrast") else LETTERS, terminal)


def _theme(name: str, terminal: Terminal) -> Theme:
    dark, text, page, field, label, well, watch, off = _SETS[name]
    if terminal.grey:  # a colour turned grey would be fainter than the text; marks and bold say what is worth watching
        well = watch = off = text
    ground = ground_in(name, terminal)
    typed_on = replace(ground, page=Color.parse(field).rgb)  # a little nearer to the letters than the page is
    text, label, well, watch, off = (
        Color(*typed_on.letter(Color.parse(colour).rgb)).hex for colour in (text, label, well, watch, off)
    )
    thumb = Color(*readable_on(ground.page, ground.page, SHAPES, terminal.contrast)).hex
    bar = {"scrollbar": thumb, "scrollbar-hover": label, "scrollbar-active": label, "scrollbar-corner-color": page}
    track = {f"scrollbar-background{when}": page for when in ("", "-hover", "-active")}
    return Theme(
        name=name,
        dark=dark,
        primary=label,
        secondary=label,
        accent=watch,
        warning=watch,
        error=off,
        success=well,
        foreground=text,
        background=page,
        surface=page,
        panel=field,
        variables=bar | track,
    )
