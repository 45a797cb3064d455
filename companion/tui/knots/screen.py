"""Every knot and closure, to look up how it is worked without a piece."""

from __future__ import annotations

from companion.core.values.text import capitalised
from companion.core.words.trade.how_to import PageLine, how_to, how_to_page, names, used_for
from companion.tui.commands import KNOTS, bindings
from companion.tui.dialogs.show import ShowDialog
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
            page = Paragraphs([_paragraph(line) for line in how_to_page(told)])
            self.app.push_screen(ShowDialog(capitalised(told.name), page))

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench())


def _rows(name: str, columns: int) -> list[Row]:
    details = [Row(line, detail=True) for line in hanging(used_for(name), columns, 0)]
    return [Row(name, name), *details]


def _paragraph(line: PageLine) -> Paragraph:
    return Paragraph(line.text, "bold" if line.strong else "", line.hang)
