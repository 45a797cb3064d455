"""What all questions over a screen share: typing, and that each is answered once."""

from __future__ import annotations

from typing import TypeVar

from textual.await_complete import AwaitComplete
from textual.screen import ModalScreen
from textual.widgets import Input

from companion.core.words.notices import Notice
from companion.tui.keys import KeysInTurnScreen
from companion.tui.widgets.text import TextLine

T = TypeVar("T")


class Dialog(KeysInTurnScreen[T | None], ModalScreen[T | None]):
    """A question over a screen; gives back a value, or None where the maker leaves it."""

    def action_drop(self) -> None:
        """Leave it."""
        self.dismiss(None)

    def tell(self, text: str) -> None:
        """Say a sentence of the moment, where what is typed is judged, or else in place of the heading."""
        for place in ("#judged", "#meaning", "#heading"):
            if self.query(place):
                self.query_one(place, TextLine).say((Notice("watch", text),))
                return

    def dismiss(self, result: T | None = None) -> AwaitComplete:
        """Give back the answer. The first one holds: a dialog that is gone has no other."""
        return super().dismiss(result) if self.is_active else AwaitComplete()

    def type_text(self, text: str) -> bool:
        """Type into the line that the hand is in, in place of what is selected there."""
        line = self.focused
        if isinstance(line, Input):
            line.replace(text, *line.selection)
        return isinstance(line, Input)
