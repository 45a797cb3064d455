"""One question: a line to type in, and what it would mean while it is being typed."""

from __future__ import annotations

from typing import TypeVar

from msgspec.structs import replace
from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Input

from companion.core.words.notices import Notice
from companion.tui.commands import ASK, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.dialogs.question import Judged, Question, not_yet
from companion.tui.widgets.text import KeyLine, Rule, TextLine

T = TypeVar("T")


class AskDialog(Dialog[T]):
    """Gives back what the typed text is taken as, or None when the maker leaves it."""

    BINDINGS = bindings(*ASK)

    def __init__(self, question: Question[T]) -> None:
        super().__init__()
        self.question = question
        self.text = ""
        self.judged: Judged[T] = not_yet()
        self.doubted = False
        self.gauged = False  # whether a gauge was shown

    def compose(self) -> ComposeResult:
        with Vertical(id="ask"):
            yield Rule()
            yield TextLine(self.question.prompt, id="prompt")
            # What it begins with stays: with the digit that opened it the reading goes on.
            with Horizontal(id="typed"):
                yield Input(
                    self.question.begin_with,
                    placeholder=self.question.hint,
                    max_length=200,
                    compact=True,
                    select_on_focus=False,
                )
            yield TextLine("", id="judged")
            yield KeyLine(*ASK)

    def on_mount(self) -> None:
        self.query_one(Input).focus()
        self.judge(self.question.begin_with)

    @on(Input.Changed)
    def typed(self, event: Input.Changed) -> None:
        if self.is_active and event.value != self.text:
            self.judge(event.value)

    def judge(self, text: str) -> None:
        """Read what is typed, and say what it would mean."""
        self.text, self.judged, self.doubted = text, self.question.judge(text), False
        self.query_one("#judged", TextLine).say(self.judged.lines)
        self._show_gauge()

    def _show_gauge(self) -> None:
        """Where a length falls; most questions ask for none, and load nothing for it."""
        gauge, typed = self.judged.gauge, self.query_one("#typed")
        typed.set_class(gauge is not None, "-gauged")
        if gauge is None and not self.gauged:
            return
        from companion.tui.widgets.gauge import GaugeView

        if not self.gauged:
            self.gauged = True
            typed.mount(GaugeView())
        for view in typed.query(GaugeView):  # none where the question is being left
            view.show(gauge)

    def action_take(self) -> None:
        """Take what is typed; what can hardly be right is asked about once."""
        text = self.query_one(Input).value
        if text != self.text:
            self.judge(text)
        if self.judged.value is None:
            lines = tuple(replace(line, level="watch") for line in self.judged.lines)
            self.query_one("#judged", TextLine).say((*lines, Notice("quiet", "Esc leaves it as it is.")))
            return
        if self.judged.doubt and not self.doubted:
            self.doubted = True
            self.query_one("#judged", TextLine).say((Notice("off", self.judged.doubt),))
            return
        self.dismiss(self.judged.value)

    def action_clear(self) -> None:
        """Type again."""
        self.query_one(Input).value = ""
