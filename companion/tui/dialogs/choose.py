"""A list to choose from over the work: by the cursor, by its number, or with a click."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar, cast

from msgspec import Struct
from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from companion.core.words.notices import Notice
from companion.tui.commands import MOST_CHOICES, PICK, Command, bindings, choosing
from companion.tui.dialogs.dialog import Dialog
from companion.tui.moving import MovesThrough
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)


class Choices(Struct, Generic[T_co], frozen=True):
    """What there is to choose from. `rows` lays it out in so many columns; a row that can be chosen has its value.

    `numbered`: the rows say their numbers themselves, and none is under the cursor until it is moved. `begin_with`: the
    value that the cursor begins on. `said`: sentences under the title, in sight however far the list goes.
    """

    title: str
    rows: Callable[[int], Sequence[Row]]
    keys: tuple[Command, ...] = PICK
    numbered: bool = False
    begin_with: T_co | None = None
    said: tuple[Notice, ...] = ()


class ChoiceDialog(MovesThrough, Dialog[T]):
    """Gives back the value that was chosen, or None when the maker leaves it. Enter with no row under the cursor leaves
    it too."""

    BINDINGS = bindings(*PICK, *map(choosing, range(1, MOST_CHOICES + 1)))

    def __init__(self, choices: Choices[T]) -> None:
        super().__init__()
        self.choices = choices

    def compose(self) -> ComposeResult:
        with Vertical(id="show"):
            yield TextLine(Content.styled(self.choices.title, "bold"), id="heading")
            yield TextLine("", id="said")
            if self.choices.said:
                yield TextLine("")
            yield Rows(id="choices", numbered=self.choices.numbered)
            yield Rule()
            yield KeyLine(*self.choices.keys)

    def on_mount(self) -> None:
        rows = self.query_one(Rows)
        self.query_one("#said", TextLine).say(self.choices.said)
        self.on_resize()
        rows.focus()
        rows.begin_with(self.choices.begin_with)
        self.call_after_refresh(rows.show_cursor)  # it has no height before

    def on_resize(self) -> None:
        self.query_one(Rows).set_rows(self.choices.rows(self.app.size.width))

    def action_choose(self, number: int) -> None:
        """Take the one of that number, from 1."""
        values = self.query_one(Rows).values
        if number <= len(values):
            self.dismiss(cast("T", values[number - 1]))

    @on(Rows.Chosen)
    async def row_clicked(self) -> None:
        await self.click("take")

    def action_take(self) -> None:
        """Take the one under the cursor."""
        self.dismiss(cast("T | None", self.query_one(Rows).chosen))
