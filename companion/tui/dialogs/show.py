"""Something to read over the work: how a knot is tied, what to mind, the keys."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widget import Widget

from companion.tui.commands import SHOW, Command, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.widgets.text import KeyLine, Rule, TextLine


class ShowDialog(Dialog[Command]):
    """A page to read; Esc, Enter or a click on the key closes it. Gives back the command on it that was clicked."""

    BINDINGS = [*bindings(*SHOW), ("question_mark", "drop")]  # noqa: RUF012  the key that opened it closes it

    def __init__(self, title: str, *page: Widget) -> None:
        super().__init__()
        self.page_title, self.page = title, page

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield TextLine(Content.styled(self.page_title, "bold"), id="heading")
            yield VerticalScroll(*self.page, id="page")
            yield Rule()
            yield KeyLine(*SHOW)

    def on_mount(self) -> None:
        self.query_one("#page").focus()

    async def choose(self, command: Command) -> None:
        """Give that command back; it is for the screen below."""
        self.dismiss(None if command in SHOW else command)
