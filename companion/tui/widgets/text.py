"""The small text widgets: a line or a few, a ruled line, and the keys at the foot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from companion.core.words.notices import Level, Notice
from companion.tui.commands import HELP, Command
from companion.tui.widgets.wrapping import fitted, in_lines

GAP = 3  # between two keys
STYLES: dict[Level, str] = {"quiet": "", "watch": "$warning", "off": "bold $error"}


class TextLine(Static):
    """Text that is only text: set from Content, redrawn only where it changed."""

    def __init__(self, text: Content | str = "", *, id: str | None = None, classes: str | None = None) -> None:
        self.shown = text if isinstance(text, Content) else Content(text)
        self.plain = text if isinstance(text, str) else None  # as it was before it was broken into lines
        self.said: tuple[Notice, ...] = ()
        self._fits: Callable[[int], Content] | None = None
        super().__init__(self.shown, id=id, classes=classes, markup=False)

    def show(self, text: Content | str) -> None:
        """Show other text, without a new layout."""
        self.said, self._fits = (), None
        self._show(text)

    def fit(self, text: Callable[[int], Content]) -> None:
        """Show the text that goes into as many columns as there are, and into as many as there come to be; nothing
        before there are any."""
        width = self.content_size.width
        if width:
            self.show(text(width))
        self._fits = text

    @property
    def _grows(self) -> bool:
        """Whether it is as high as its text."""
        return self.styles.height is None or self.styles.height.is_auto

    def _in_lines(self, text: str) -> str:
        """Broken where a length is not torn apart; a widget that grows with its text leaves that to nobody else."""
        columns = self.content_size.width
        if not columns or not self._grows:
            return text
        return "\n".join(in_lines(text, columns))

    def _show(self, text: Content | str) -> None:
        self.plain = text if isinstance(text, str) else None
        text = text if isinstance(text, Content) else Content(self._in_lines(text))
        if text != self.shown:
            self.shown = text
            self.update(text, layout=self._grows)

    def say(self, words: Sequence[Notice]) -> None:
        """Show sentences, each in the colour of how much it matters; whole ones, as many as there is room for."""
        self.said, self._fits = tuple(words), None
        columns, rows = self.content_size
        if columns and not self._grows:
            lines = fitted(words, columns, rows)
        else:
            lines = [(self._in_lines(str(notice)), notice.level) for notice in words]
        self._show(Content("\n").join(Content.styled(text, STYLES[level]) for text, level in lines))

    def on_resize(self) -> None:
        if self._fits is not None:
            self.fit(self._fits)
        elif self.said:
            self.say(self.said)
        elif self.plain is not None and self._grows:
            self._show(self.plain)


class Rule(Widget):
    """One ruled line."""

    def render(self) -> Content:
        return Content("─" * max(0, self.content_size.width))


def _columns(commands: Sequence[Command]) -> int:
    """What so many keys take beside one another, each with its word."""
    return sum(len(command.shown) + 1 + len(command.short) for command in commands) + GAP * (len(commands) - 1)


class KeyLine(Widget):
    """The keys at the foot, in one line; a click on one does the same."""

    @dataclass
    class Chosen(Message):
        """The hand chose a command."""

        command: Command

    def __init__(self, *commands: Command) -> None:
        super().__init__()
        self.commands: list[Command] = []
        self.offer(*commands)

    def offer(self, *commands: Command) -> None:
        """Show these, as far as they have a word for the key line."""
        offered = [command for command in commands if command.short]
        if offered != self.commands:
            self.commands = offered
            self.refresh()

    def shown(self) -> list[tuple[int, int, Command]]:
        """Where each key stands: first column, column after, command. What does not fit is left to the help: so the
        help itself stays, and the last one, which is the way out."""
        room = self.content_size.width
        kept = [command for command in self.commands if command in (HELP, self.commands[-1])]
        for command in self.commands:
            tried = [one for one in self.commands if one in kept or one is command]
            if _columns(tried) <= room:
                kept = tried
        while len(kept) > 1 and _columns(kept) > room:
            kept.pop(0)
        ends = [_columns(kept[:number]) for number in range(1, len(kept) + 1)]
        return [(end - _columns([command]), end, command) for end, command in zip(ends, kept, strict=True)]

    def render(self) -> Content:
        parts: list[str | tuple[str, str]] = []
        for place, (_, _, command) in enumerate(self.shown()):
            parts += [" " * GAP if place else "", (command.shown, "bold $foreground"), f" {command.short}"]
        return Content.assemble(*parts)

    def on_click(self, event: events.Click) -> None:
        offset = event.get_content_offset(self)
        if offset is None:
            return
        for first, after, command in self.shown():
            if first <= offset.x < after:
                event.stop()
                self.post_message(self.Chosen(command))
