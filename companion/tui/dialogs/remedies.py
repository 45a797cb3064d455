"""What would bring the piece back, and choosing one of it."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen

from companion.core.remedy import Remedy
from companion.tui.commands import SHOW, bindings, choosing
from companion.tui.widgets.paragraphs import Paragraph, Paragraphs
from companion.tui.widgets.text import KeyLine, Line, Rule

MOST_CHOICES = 9  # one digit each


class RemediesDialog(ModalScreen[int | None]):
    """Gives back which remedy (from 0) to go on with, or None. A digit chooses, or a click on it at the foot."""

    BINDINGS = bindings(*SHOW)

    def __init__(self, found: Sequence[Remedy], text: Sequence[Paragraph]) -> None:
        super().__init__()
        self.text = text
        self.choices = [choosing(number) for number in range(1, min(len(found), MOST_CHOICES) + 1)]
        for choice in self.choices:
            self._bindings.bind(choice.keys, choice.action, choice.text, show=False)

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield Line(Content.styled("What to do", "bold"), id="heading")
            with VerticalScroll(id="page"):
                yield Paragraphs(self.text)
            yield Rule()
            yield KeyLine(*self.choices, *SHOW)

    def on_mount(self) -> None:
        self.query_one("#page").focus()

    def action_choose(self, number: int) -> None:
        """Go on as that one says (from 1)."""
        self.dismiss(number - 1)

    def action_close(self) -> None:
        """Leave the piece as it is."""
        self.dismiss(None)

    @on(KeyLine.Chosen)
    async def key_chosen(self, message: KeyLine.Chosen) -> None:
        await self.run_action(message.command.action)
