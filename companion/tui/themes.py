"""Four sets of colours. On plan a screen is nearly without colour but for the beads; colour never stands alone."""

from __future__ import annotations

from textual.theme import Theme


def _theme(name: str, dark: bool, text: str, paper: str, field: str, quiet: str, watch: str, off: str) -> Theme:
    return Theme(
        name=name,
        dark=dark,
        primary=quiet,
        secondary=quiet,
        accent=watch,
        warning=watch,
        error=off,
        success=quiet,
        foreground=text,
        background=paper,
        surface=paper,
        panel=field,
    )


THEMES = (
    _theme("lamp", True, "#d8d8d2", "#14181b", "#1d2327", "#9aa7b0", "#e0b050", "#ff8a70"),
    _theme("day", False, "#1c1f22", "#fbfaf6", "#efece4", "#5a6670", "#8a5a00", "#a3200d"),
    _theme("night, high contrast", True, "#ffffff", "#000000", "#202020", "#ffffff", "#ffff00", "#ff6060"),
    _theme("day, high contrast", False, "#000000", "#ffffff", "#e8e8e8", "#000000", "#5a3a00", "#900000"),
)
