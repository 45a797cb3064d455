"""Something to read over the work: how a knot is tied, what to mind, the keys."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget

from companion.tui.commands import MORE_BELOW, SHOW, Command, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.moving import MovesThrough, TextScroll
from companion.tui.widgets.text import KeyLine, Rule, TextLine


class ShowDialog(MovesThrough, Dialog[Command]):
    """A page to read; Esc, Enter or a click on the key closes it. Gives back the command on it that was clicked."""

    BINDINGS = [*bindings(*SHOW), ("question_mark", "drop")]  # noqa: RUF012  the key that opened it closes it

    def __init__(self, title: str, *page: Widget) -> None:
        super().__init__()
        self.page_title, self.page = title, page

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield TextLine(Content.styled(self.page_title, "bold"), id="heading")
            yield TextScroll(*self.page, id="page")
            yield Rule()
            yield KeyLine(*SHOW)

    def on_mount(self) -> None:
        self.call_after_refresh(self.say_what_is_below)

    def on_resize(self) -> None:
        self.call_after_refresh(self.say_what_is_below)

    def say_what_is_below(self) -> None:
        """Whether there is more than shows stands at the foot: without colours a scroll bar is easily missed."""
        if self.is_attached:
            more = (MORE_BELOW,) if self.query_one(TextScroll).max_scroll_y else ()
            self.query_one(KeyLine).offer(*more, *SHOW)

    async def choose(self, command: Command) -> None:
        """Give that command back; it is for the screen below. Moving is done here."""
        if command is MORE_BELOW:
            self.action_page_down()
        else:
            self.dismiss(None if command in SHOW else command)
