"""A few lines to fill in, and what they would mean together while they are being typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Generic, TypeVar

from msgspec import Struct
from msgspec.structs import replace
from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input

from companion.core.words.notices import Notice
from companion.tui.commands import FORM, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.dialogs.question import Judged
from companion.tui.widgets.choice import Choice
from companion.tui.widgets.text import KeyLine, Rule, TextLine

Values = Mapping[str, str]
T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)

MOST_TYPED = 200  # characters of a line


class Field(Struct, frozen=True):
    """One line of a form. `choices`: the words that it may hold; none: anything can be typed, so many characters at
    `most`."""

    key: str
    label: str
    begin_with: str = ""
    hint: str = ""
    choices: tuple[str, ...] = ()
    most: int = MOST_TYPED


class FormJudged(Judged[T_co], frozen=True):
    """What the typed lines mean; `at`: the line that can't be taken as it is."""

    at: str = ""


class Form(Struct, Generic[T_co], frozen=True):
    """What is asked for; `judge` reads what is typed so far. `begin_at`: the line to begin with; `said`: sentences to
    begin with."""

    title: str
    fields: tuple[Field, ...]
    judge: Callable[[Values], FormJudged[T_co]]
    begin_at: str = ""
    said: tuple[Notice, ...] = ()


class Filled(Struct, Generic[T_co], frozen=True):
    """A form that is taken: as what, and what was typed in its lines."""

    value: T_co
    typed: Values


class FormDialog(Dialog[Filled[T]]):
    """Gives back what the typed lines are taken as, or None when the maker leaves it. Enter goes on, and takes on the
    last line."""

    BINDINGS = bindings(*FORM)
    PLACE = "show"  # where it lies, by its name in the stylesheet

    def __init__(self, form: Form[T]) -> None:
        super().__init__()
        self.form = form
        self.judged_of: dict[str, str] = {}  # what was last judged
        self.doubted = False  # it was asked about
        self.leaving = False  # whether Esc was pressed once, with something typed
        self.begun_with: dict[str, str] = {}

    def compose(self) -> ComposeResult:
        with Vertical(id=self.PLACE):
            yield TextLine(Content.styled(self.form.title, "bold"), id="heading")
            with Vertical(id="fields"):
                for field in self.form.fields:
                    with Horizontal(classes="field"):
                        yield TextLine(f"  {field.label}", id=f"label-{field.key}")
                        yield _entry(field)
            yield TextLine("", id="meaning")
            yield Rule()
            yield KeyLine(*FORM)

    def on_mount(self) -> None:
        self.begun_with = self.values
        self.entry(self.form.begin_at or self.form.fields[0].key).focus()
        self.call_after_refresh(self.begin)

    @on(events.DescendantFocus)
    def mark_the_line(self) -> None:
        """A mark beside the line that is typed in: a shade alone is not seen by everybody."""
        place = self._place()
        for number, field in enumerate(self.form.fields):
            mark = "›" if number == place else " "
            self.query_one(f"#label-{field.key}", TextLine).show(f"{mark} {field.label}")

    def begin(self) -> None:
        """Say what there is to say before anything is typed."""
        if self.is_active:
            judged = self._judge()
            self._say(self.form.said or judged.lines)

    def entry(self, key: str) -> Widget:
        """The line of that key."""
        return self.query_one(f"#{key}")

    @property
    def values(self) -> dict[str, str]:
        """What every line holds."""
        found = {}
        for field in self.form.fields:
            entry = self.entry(field.key)
            assert isinstance(entry, Input | Choice)
            found[field.key] = entry.value
        return found

    def _say(self, lines: Sequence[Notice]) -> None:
        self.query_one("#meaning", TextLine).say(lines)

    @on(Input.Changed)
    @on(Choice.Changed)
    def changed(self) -> None:
        """Something else is typed or chosen: say what it means, unless it is judged already."""
        if self.is_active and self.values != self.judged_of:
            self.leaving = False
            self._say(self._judge().lines)

    def _judge(self) -> FormJudged[T]:
        if self.values != self.judged_of:
            self.judged_of, self.doubted = self.values, False
        return self.form.judge(self.judged_of)

    def action_take(self) -> None:
        """On to the next line; on the last one, take it all. What can hardly be right is asked about once."""
        keys = [field.key for field in self.form.fields]
        place = self._place()
        if place + 1 < len(keys):
            self.entry(keys[place + 1]).focus()
            return
        judged = self._judge()
        if judged.value is None:
            self._say([replace(line, level="off") for line in judged.lines])
            if judged.at:
                self.entry(judged.at).focus()
        elif judged.doubt and not self.doubted:
            self.doubted = True
            self._say((Notice("off", judged.doubt),))
        else:
            self.dismiss(Filled(judged.value, self.judged_of))

    def action_drop(self) -> None:
        """Leave it; what was typed is asked about once, for it would be lost."""
        if self.leaving or self.values == self.begun_with:
            self.dismiss(None)
            return
        self.leaving = True
        self._say((Notice("watch", "Esc again leaves it, and what you typed here is lost. Enter goes on."),))

    def _place(self) -> int:
        focused = self.focused.id if self.focused else None
        return next((n for n, field in enumerate(self.form.fields) if field.key == focused), -1)

    def action_cursor_up(self) -> None:
        """The line above."""
        self._go(-1)

    def action_cursor_down(self) -> None:
        """The line below."""
        self._go(1)

    def _go(self, by: int) -> None:
        place = min(max(0, self._place() + by), len(self.form.fields) - 1)
        self.entry(self.form.fields[place].key).focus()

    def action_other(self) -> None:
        """Another word, where the line is one to choose."""
        if isinstance(self.focused, Choice):
            self.focused.action_other()

    def action_clear(self) -> None:
        """Type this line again."""
        if isinstance(self.focused, Input):
            self.focused.value = ""


def _entry(field: Field) -> Widget:
    if field.choices:
        return Choice(field.choices, field.begin_with, id=field.key)
    return Input(field.begin_with, placeholder=field.hint, max_length=field.most, compact=True, id=field.key)
