"""The whole piece drawn, closed as it is worn, in rows where it is too long, in letters without colours.
Drawn in a thread once the page stands, so that neither the page nor a key waits for it."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from concurrent.futures import Future
from contextlib import suppress
from contextvars import copy_context

from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget

from companion.core.plan.plan import Plan
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.letter_strand import letter_rows, lines_of
from companion.tui.widgets.palettes import page_colours
from companion.tui.widgets.piece_lines import MARGIN, ToDraw, piece_lines
from companion.workshop.beside import started

LEAST_LINES, SHARE = 11, 0.5  # of the screen's lines, where the rest of the page leaves them


class PieceDrawing(Widget):
    """All of a plan, as much of it made as steps are done. What stands `inside` is shown only where the drawn piece
    leaves room for it. `rest`: the lines of the screen that are for other things; `lettered`: with letters on beads
    that have room for one."""

    def __init__(self, plan: Plan | None, inside: Sequence[str] = (), *, rest: int = 0, lettered: bool = True) -> None:
        super().__init__()
        self.plan, self.inside, self.rest, self.lettered = plan, tuple(inside), rest, lettered
        self.steps_done: int | None = None
        self._lines: list[Strip] = []
        self._drawn: ToDraw | None = None  # what the lines are of
        self._asked: ToDraw | None = None

    def show(self, plan: Plan | None, inside: Sequence[str] = (), steps_done: int | None = None) -> None:
        """Show that plan with so many of its steps done, None: all."""
        if (plan, tuple(inside), steps_done) != (self.plan, self.inside, self.steps_done):
            self.plan, self.inside, self.steps_done = plan, tuple(inside), steps_done
            self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        room = max(LEAST_LINES, min(viewport.height - self.rest, round(viewport.height * SHARE)))
        if self.plan is not None and not draws(terminal_of(self.app)):
            return sum(lines_of(name) for name, _ in letter_rows(self.plan, max(1, width - 2 * MARGIN), room))
        return room

    @property
    def is_drawn(self) -> bool:
        """Whether what is to be drawn stands there."""
        return self._drawn == self._wanted

    @property
    def _wanted(self) -> ToDraw:
        app, (columns, lines) = self.app, self.size
        in_pixels, colours = draws(terminal_of(app)), page_colours(app)
        return ToDraw(
            self.plan, self.inside, self.steps_done, columns, lines, in_pixels, self.lettered, colours, self.rich_style
        )

    def render_lines(self, crop: Region) -> list[Strip]:
        wanted = self._wanted
        if wanted not in (self._drawn, self._asked):
            self._asked = wanted
            self.call_after_refresh(self._draw, wanted)
        return super().render_lines(crop)

    def render_line(self, y: int) -> Strip:
        if y < len(self._lines) and self._lines[y].cell_length == self.size.width and self._drawn is self._asked:
            return self._lines[y]
        return Strip.blank(self.size.width, self.rich_style)

    def _draw(self, wanted: ToDraw) -> None:
        loop, context = asyncio.get_running_loop(), copy_context()

        def hand_over(drawn: Future[list[Strip]]) -> None:
            with suppress(RuntimeError):  # the app has ended meanwhile
                loop.call_soon_threadsafe(self._arrived, wanted, drawn, context=context)

        if wanted is self._asked:
            started(lambda: piece_lines(wanted), "drawing").add_done_callback(hand_over)

    def _arrived(self, wanted: ToDraw, drawn: Future[list[Strip]]) -> None:
        if wanted is self._asked and self.is_attached:
            self._lines, self._drawn = drawn.result(), wanted
            self.refresh()
