"""Every knot and closure, to look up how it is worked without a piece."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from textual.widget import Widget

from companion.core.tying.knot_picture import in_words
from companion.core.values.text import capitalised
from companion.core.words.trade.how_to import (
    HowTo,
    PageLine,
    how_to,
    how_to_page,
    how_to_steps,
    how_to_top,
    names,
    used_for,
)
from companion.tui.commands import KNOTS, bindings
from companion.tui.dialogs.show import ShowDialog
from companion.tui.knots.drawing import KnotDrawing, drawn_lines
from companion.tui.page import ListPage
from companion.tui.routes import ToBench
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import hanging

DETAIL_EDGES = 7  # what a row's details are set in by, and the scroll bar


class KnotsScreen(ListPage):
    """The list of them; each opens as a page to read."""

    BINDINGS = bindings(*KNOTS)
    COMMANDS_HERE = KNOTS
    heading = "Knots and closures"

    def on_mount(self) -> None:
        self.show_rows()
        self.rows.focus()

    def on_resize(self) -> None:
        self.show_rows()

    def show_rows(self) -> None:
        """Each by its name, with what it is for."""
        columns = self.size.width - DETAIL_EDGES
        self.rows.set_rows([row for name in names() for row in _rows(name, columns)])

    def action_open_row(self) -> None:
        """How the one under the cursor is worked."""
        name, settings = self.rows.chosen, self.workshop.settings
        told = (
            how_to(name, settings.unit or "mm", left_handed=settings.hand == "left") if isinstance(name, str) else None
        )
        if told is not None:
            self.app.push_screen(ShowDialog(capitalised(told.name), *self._page(told)))

    def _page(self, told: HowTo) -> Iterator[Widget]:
        """The how-to, drawn where there is room and colour for it."""
        lines = drawn_lines(self.app)
        if lines and in_words(told.shown):
            yield _paragraphs((*how_to_top(told), PageLine("")))
            yield KnotDrawing(told.shown, lines)
            yield _paragraphs(how_to_steps(told))
        else:
            yield _paragraphs(how_to_page(told))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench())


def _rows(name: str, columns: int) -> list[Row]:
    details = [Row(line, detail=True) for line in hanging(used_for(name), columns, 0)]
    return [Row(name, name), *details]


def _paragraphs(lines: Iterable[PageLine]) -> Paragraphs:
    return Paragraphs([Paragraph(line.text, "bold" if line.strong else "", line.hang) for line in lines])
