"""Something to read over the work: how a knot is tied, what to do, what to mind, the keys."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content

from companion.tui.commands import SHOW, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.widgets.text import KeyLine, Rule, TextLine


class ShowDialog(Dialog[None]):
    """A page of text; Esc, Enter or a click on the key closes it."""

    BINDINGS = bindings(*SHOW)

    def __init__(self, title: str, text: str | Content) -> None:
        super().__init__()
        self.page_title, self.text = title, text

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield TextLine(Content.styled(self.page_title, "bold"), id="heading")
            with VerticalScroll(id="page"):
                yield TextLine(self.text)
            yield Rule()
            yield KeyLine(*SHOW)

    def on_mount(self) -> None:
        self.query_one("#page").focus()

    def action_close(self) -> None:
        """Back to what was there."""
        self.dismiss(None)
