"""Pages to read: paragraphs that keep their order at any width, and commands that a click does."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from textual import events
from textual.color import Color
from textual.content import Content
from textual.geometry import Size
from textual.style import Style
from textual.widget import Widget

from companion.core.picture.colours import Colour
from companion.tui.commands import Command
from companion.tui.themes import ground_of
from companion.tui.widgets.text import KeyLine
from companion.tui.widgets.wrapping import hanging


class Paragraph(Struct, frozen=True):
    """One paragraph; its later lines are set in by `hang` columns. `style` as Content knows it. `lead`: so many of its
    first characters are a bead's mark, in its `colour` where that is known."""

    text: str = ""
    style: str = ""
    hang: int = 0
    lead: int = 0
    colour: Colour | None = None


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
        lines = []
        for paragraph in self.paragraphs:
            first, *later = hanging(paragraph.text, columns, paragraph.hang)
            lines += [self._led(paragraph, first), *(Content.styled(line, paragraph.style) for line in later)]
        return lines

    def _led(self, paragraph: Paragraph, line: str) -> Content:
        """The first line of a paragraph, the mark at its beginning in the bead's colour."""
        content = Content.styled(line, paragraph.style)
        if paragraph.colour is None:
            return content
        style = Style(foreground=Color(*ground_of(self.app).letter(paragraph.colour)), bold=True)
        return content.stylize(style, 0, paragraph.lead)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return sum(len(hanging(one.text, max(1, width), one.hang)) for one in self.paragraphs)

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
