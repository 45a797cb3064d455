"""What would bring the piece back, and choosing one of it."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen

from companion.core.remedy import Remedy
from companion.tui.commands import SHOW, bindings
from companion.tui.widgets.text import KeyLine, Line, Rule


class RemediesDialog(ModalScreen[int | None]):
    """Gives back which remedy (from 0) to go on with, or None. A digit chooses."""

    BINDINGS = bindings(*SHOW)

    def __init__(self, found: Sequence[Remedy], text: Content) -> None:
        super().__init__()
        self.found, self.text = tuple(found), text

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield Line(Content.styled("What to do", "bold"), id="heading")
            with VerticalScroll(id="page"):
                yield Line(self.text)
            yield Rule()
            yield KeyLine(*SHOW)

    def on_mount(self) -> None:
        self.query_one("#page").focus()

    def on_key(self, event: events.Key) -> None:
        if event.character and event.character.isdigit() and 1 <= int(event.character) <= len(self.found):
            event.stop()
            self.dismiss(int(event.character) - 1)

    def action_close(self) -> None:
        """Leave the piece as it is."""
        self.dismiss(None)

    @on(KeyLine.Chosen)
    async def key_chosen(self, message: KeyLine.Chosen) -> None:
        await self.run_action(message.command.action)
