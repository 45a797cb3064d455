"""One question: a line to type in, and what it would mean while it is being typed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Input

from companion.core.words.notices import Notice
from companion.tui.commands import ASK, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.widgets.text import KeyLine, Rule, TextLine


@dataclass(frozen=True, slots=True)
class Judged:
    """What the typed text would mean. `takes`: whether Enter may take it; `doubt`: asked about once before it does."""

    lines: tuple[Notice, ...] = ()
    takes: bool = True
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked; `judge` gives the meaning of what is typed so far."""

    prompt: str
    judge: Callable[[str], Judged]
    begin_with: str = ""
    hint: str = ""
    lines: tuple[str, ...] = field(default=())


class AskDialog(Dialog[str]):
    """Gives back the text, or None when the maker leaves it."""

    BINDINGS = bindings(*ASK)

    def __init__(self, question: Question) -> None:
        super().__init__()
        self.question = question
        self.doubted: str | None = None

    def compose(self) -> ComposeResult:
        with Vertical(id="ask"):
            yield Rule()
            yield TextLine(self.question.prompt, id="prompt")
            yield Input(self.question.begin_with, placeholder=self.question.hint, max_length=200, compact=True)
            yield TextLine("", id="judged")
            yield KeyLine(*ASK)

    def on_mount(self) -> None:
        self.query_one(Input).focus()
        self._judge(self.question.begin_with)

    @on(Input.Changed)
    def typed(self, event: Input.Changed) -> None:
        if self.is_active:  # what was typed last is judged when it is taken
            self.doubted = None
            self._judge(event.value)

    def _judge(self, text: str) -> Judged:
        judged = self.question.judge(text)
        self.query_one("#judged", TextLine).say(judged.lines)
        return judged

    def action_take(self) -> None:
        """Take what is typed; what can hardly be right is asked about once."""
        text = self.query_one(Input).value
        judged = self._judge(text)
        if not judged.takes:
            return
        if judged.doubt and self.doubted != text:
            self.doubted = text
            self.query_one("#judged", TextLine).say((Notice("off", judged.doubt),))
            return
        self.dismiss(text)

    def action_clear(self) -> None:
        """Type again."""
        self.query_one(Input).value = ""

    def action_drop(self) -> None:
        """Leave it."""
        self.dismiss(None)
