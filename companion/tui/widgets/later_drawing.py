"""A drawing that is made in a thread once the page stands, so that neither the page nor a key waits for it."""

from __future__ import annotations

from concurrent.futures import Future
from functools import partial
from typing import Generic, TypeVar

from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from companion.tui.handing_over import hand_over
from companion.workshop.beside import started

ToDraw = TypeVar("ToDraw")


class LaterDrawing(Widget, Generic[ToDraw]):
    """Blank until it is drawn. A part says what is to be drawn, a frozen value, and draws it from that alone."""

    def __init__(self) -> None:
        super().__init__()
        self._lines: list[Strip] = []
        self._drawn: ToDraw | None = None  # what the lines are of
        self._asked: ToDraw | None = None

    def wanted(self) -> ToDraw:
        """What is to be drawn, and all that the drawing depends on."""
        raise NotImplementedError

    @staticmethod
    def drawn(wanted: ToDraw) -> list[Strip]:
        """All lines of the place; in a thread."""
        raise NotImplementedError

    @property
    def is_drawn(self) -> bool:
        """Whether what is to be drawn stands there."""
        return self._drawn == self.wanted()

    def render_lines(self, crop: Region) -> list[Strip]:
        wanted = self.wanted()
        if wanted not in (self._drawn, self._asked):
            self._asked = wanted
            self.call_after_refresh(self._draw, wanted)
        return super().render_lines(crop)

    def render_line(self, y: int) -> Strip:
        if y < len(self._lines) and self._lines[y].cell_length == self.size.width and self._drawn is self._asked:
            return self._lines[y]
        return Strip.blank(self.size.width, self.rich_style)

    def _draw(self, wanted: ToDraw) -> None:
        if wanted is self._asked:
            hand_over(started(lambda: self.drawn(wanted), "drawing"), partial(self._arrived, wanted))

    def _arrived(self, wanted: ToDraw, drawn: Future[list[Strip]]) -> None:
        if wanted is self._asked and self.is_attached:
            self._lines, self._drawn = drawn.result(), wanted
            self.refresh()
