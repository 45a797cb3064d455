"""How the present step is worked, beside the work where the screen is wide."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from companion.core.plan.plan import Plan
from companion.tui.themes import draws, terminal_of
from companion.tui.widgets.text import TextLine

if TYPE_CHECKING:
    from companion.core.tying.shown import KnotShown

MOST_LINES = 14  # of the drawing


class TyingPanel(Vertical):
    """The knot of a step, or the closure of its end: drawn where there are colours and room, and in words."""

    def compose(self) -> ComposeResult:
        yield TextLine("", id="lore")

    def show(self, plan: Plan, entry: int, number: int | None, left_handed: bool) -> None:
        """Show that step of an entry, from 1; None: every step is done, and nothing is shown."""
        columns, lines = self.content_size
        if not self.display or not columns:
            return
        from companion.core.words.trade.asked_for import closure_shown
        from companion.core.words.trade.knot_lore import lore_at
        from companion.tui.follow.pages import asked_page, closure_words, lore_page

        steps = plan.strands[entry].steps
        step = steps[number - 1] if number is not None else None
        if step is not None and step.knot:
            told = lore_at(plan, entry, step, left_handed)
            steps_alone = lore_page(told, columns, 0, drawn=True)
            taken = self._draw(told.shown, lines - steps_alone.plain.count("\n") - 1)
            text: Content | str = lore_page(told, columns, lines - taken, drawn=bool(taken))
        else:
            shown = closure_shown(plan, entry, step, left_handed) if step else None
            if self._draw(shown, MOST_LINES) and shown:
                text = closure_words(shown, columns)
            else:
                text = asked_page(plan, entry, step, left_handed, columns, lines) if step else ""
        self.query_one("#lore", TextLine).show(text)

    def _draw(self, shown: KnotShown | None, room: int) -> int:
        """Draw that in at most so many lines; how many it takes, 0 where it is not drawn."""
        from companion.core.tying.knot_picture import lines_at, scale_for
        from companion.tui.knots.drawing import KnotDrawing

        most = min(room, MOST_LINES)
        scale = scale_for(self.content_size.width, most) if draws(terminal_of(self.app)) and shown else 0.0
        drawing = next(iter(self.query(KnotDrawing)), None)
        if drawing is not None:
            drawing.display = bool(scale)
        if not scale or shown is None:
            return 0
        if drawing is None:
            self.mount(KnotDrawing(shown, most), before=0)
        else:
            drawing.show(shown, most)
        return lines_at(scale)
