"""The whole piece drawn, closed as it is worn, in rows where it is too long, in letters without colours."""

from __future__ import annotations

from collections.abc import Sequence

from textual.geometry import Size
from textual.strip import Strip

from companion.core.plan.plan import Plan
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.later_drawing import LaterDrawing
from companion.tui.widgets.letter_strand import letter_rows, lines_of
from companion.tui.widgets.palettes import page_colours
from companion.tui.widgets.piece_lines import MARGIN, ToDraw, piece_lines

LEAST_LINES, SHARE = 11, 0.5  # of the screen's lines, where the rest of the page leaves them


class PieceDrawing(LaterDrawing[ToDraw]):
    """All of a plan, as much of it made as steps are done. What stands `inside` is shown only where the drawn piece
    leaves room for it. `rest`: the lines of the screen that are for other things; `lettered`: with letters on beads
    that have room for one."""

    def __init__(self, plan: Plan | None, inside: Sequence[str] = (), *, rest: int = 0, lettered: bool = True) -> None:
        super().__init__()
        self.plan, self.inside, self.rest, self.lettered = plan, tuple(inside), rest, lettered
        self.steps_done: int | None = None

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

    def wanted(self) -> ToDraw:
        app, (columns, lines) = self.app, self.size
        in_pixels, colours = draws(terminal_of(app)), page_colours(app)
        return ToDraw(
            self.plan, self.inside, self.steps_done, columns, lines, in_pixels, self.lettered, colours, self.rich_style
        )

    @staticmethod
    def drawn(wanted: ToDraw) -> list[Strip]:
        return piece_lines(wanted)
