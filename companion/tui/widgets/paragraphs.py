"""Pages to read: paragraphs that keep their order at any width, and commands that a click does."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from textual import events
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from companion.tui.commands import Command
from companion.tui.widgets.text import KeyLine
from companion.tui.widgets.wrapping import hanging


class Paragraph(Struct, frozen=True):
    """One paragraph; its later lines are set in by `hang` columns. `style` as Content knows it."""

    text: str = ""
    style: str = ""
    hang: int = 0


class Paragraphs(Widget):
    """Text to read that keeps its order at any width."""

    def __init__(self, paragraphs: Sequence[Paragraph], *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.paragraphs = tuple(paragraphs)

    def show(self, paragraphs: Sequence[Paragraph]) -> None:
        """Show other text."""
        self.paragraphs = tuple(paragraphs)
        self.refresh(layout=True)

    def headings(self) -> list[int]:
        """The lines, from 0, on which the bold paragraphs begin."""
        columns, line, found = max(1, self.content_size.width), 0, []
        for paragraph in self.paragraphs:
            if paragraph.style == "bold":
                found.append(line)
            line += len(hanging(paragraph.text, columns, paragraph.hang))
        return found

    def _lines(self, columns: int) -> list[Content]:
        return [
            Content.styled(line, paragraph.style)
            for paragraph in self.paragraphs
            for line in hanging(paragraph.text, columns, paragraph.hang)
        ]

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(self._lines(max(1, width)))

    def render(self) -> Content:
        return Content("\n").join(self._lines(max(1, self.content_size.width)))


class CommandText(Paragraphs):
    """One command in the help: its keys and its sentence; a click on it does it."""

    def __init__(self, command: Command, text: str, hang: int) -> None:
        super().__init__([Paragraph(text, hang=hang)])
        self.command = command

    def on_click(self, event: events.Click) -> None:
        event.stop()
        self.post_message(KeyLine.Chosen(self.command))
