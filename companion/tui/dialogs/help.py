"""All keys of a screen, and what the marks mean. A click on a command does it: nothing needs a keyboard."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content

from companion.core.plan.plan import Plan
from companion.tui.commands import SHOW, Command, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.pages import KEYS_COLUMN, key_text, marks_text
from companion.tui.widgets.paragraphs import CommandText, Paragraphs
from companion.tui.widgets.text import KeyLine, Rule, TextLine


class HelpDialog(Dialog[Command]):
    """Gives back the command that was clicked, or None."""

    BINDINGS = bindings(*SHOW)

    def __init__(self, commands: Sequence[Command], plan: Plan | None) -> None:
        super().__init__()
        self.commands, self.plan = tuple(commands), plan

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield TextLine(Content.styled("Keys and marks", "bold"), id="heading")
            with VerticalScroll(id="page"):
                for command in self.commands:
                    yield CommandText(command, key_text(command), KEYS_COLUMN)
                yield Paragraphs(marks_text(self.plan))
            yield Rule()
            yield KeyLine(*SHOW)

    def on_mount(self) -> None:
        self.query_one("#page").focus()

    def action_close(self) -> None:
        """Back to what was there."""
        self.dismiss(None)

    async def choose(self, command: Command) -> None:
        """Give that command back; it is for the screen below."""
        self.dismiss(None if command in SHOW else command)
