"""One of a few words, chosen with the arrows, Space or a click."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from companion.tui.commands import OTHER, OTHER_BEFORE, bindings


class Choice(Widget, can_focus=True):
    """Shows the word that is chosen: "‹ waxed linen ›   5 of 8"."""

    BINDINGS = bindings(OTHER, OTHER_BEFORE)

    @dataclass
    class Changed(Message):
        """Another word is chosen."""

    def __init__(self, choices: Sequence[str], begin_with: str = "", *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.choices = tuple(choices)
        self.place = self.choices.index(begin_with) if begin_with in self.choices else 0

    @property
    def value(self) -> str:
        """The word that is chosen."""
        return self.choices[self.place]

    def render(self) -> Content:
        count = f"   {self.place + 1} of {len(self.choices)}"
        if len(self.value) + len(count) + len("‹  ›") > self.content_size.width:
            count = ""
        return Content.assemble("‹ ", (self.value, "bold"), " ›", (count, "$secondary"))

    def action_other(self) -> None:
        """The next word; after the last, the first."""
        self._go(1)

    def action_other_before(self) -> None:
        """Previous choice."""
        self._go(-1)

    def _go(self, by: int) -> None:
        self.place = (self.place + by) % len(self.choices)
        self.refresh()
        self.post_message(self.Changed())

    def on_click(self, event: events.Click) -> None:
        """A click on the left-hand mark goes back, anywhere else on."""
        offset = event.get_content_offset(self)
        self._go(-1 if offset is not None and offset.x < 2 else 1)
