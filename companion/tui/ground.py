"""What lies under other widgets and has nothing of its own to show."""

from __future__ import annotations

from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget


class BlankGround(Widget):
    """One of its blank lines serves for all: Textual would draw each anew whenever a line above it changes."""

    def render_lines(self, crop: Region) -> list[Strip]:
        return super().render_lines(Region(crop.x, 0, crop.width, min(1, crop.height))) * crop.height
