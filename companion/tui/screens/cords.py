"""The cord cards: what the maker knows of each cord worked one way."""

from __future__ import annotations

from collections.abc import Mapping

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content

from companion.core.cord.cards import CordCard
from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.core.words.card_words import card_lines, cord_described, count_of_tests
from companion.core.words.notices import Level, Notice
from companion.tui.commands import CORDS, bindings
from companion.tui.screens.base import Page
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.tui.widgets.wrapping import hanging

DETAIL_EDGES = 7  # what a row's details are set in by, and the scroll bar
HANG = 2
NO_CARDS = (
    "No cord cards yet. + makes one.",
    "Knots of one cord swallow more than those of another: a card holds what yours do.",
)


class CordsScreen(Page):
    """Every card, with its figures."""

    BINDINGS = bindings(*CORDS)
    COMMANDS_HERE = CORDS

    def compose(self) -> ComposeResult:
        yield TextLine(Content.styled("Cords", "bold"), id="heading")
        yield TextLine("")
        yield Rows(id="rows")
        yield TextLine("", id="said")
        yield Rule()
        yield KeyLine(*CORDS)

    def on_mount(self) -> None:
        self.show_rows()
        self.query_one(Rows).focus()

    def on_resize(self) -> None:
        self.show_rows()

    def show_rows(self) -> None:
        """Read the cards anew."""
        cards: tuple[CordCard, ...] = ()
        try:
            cards = self.workshop.cards()
        except WorkshopError as error:
            self.say(str(error))
        columns = self.size.width - DETAIL_EDGES
        rows = [row for card in cards for row in _card_rows(card, columns)]
        if not rows:
            rows = [
                Row(line, detail=number > 0)
                for number, text in enumerate(NO_CARDS)
                for line in hanging(text, columns, 0)
            ]
        self.query_one(Rows).set_rows(rows)

    def say(self, text: str, level: Level = "off") -> None:
        """One sentence under the list."""
        self.query_one("#said", TextLine).say((Notice(level, text),) if text else ())

    def action_cursor_up(self) -> None:
        self.query_one(Rows).move(-1)

    def action_cursor_down(self) -> None:
        self.query_one(Rows).move(1)

    @on(Rows.Chosen)
    async def chosen(self) -> None:
        await self.click("open_row")

    def action_open_row(self) -> None:
        """Open the card under the cursor."""
        name = self.query_one(Rows).chosen
        try:
            card = self.workshop.card(name) if isinstance(name, str) else None
        except WorkshopError as error:
            self.say(str(error))
            return
        if card is not None:
            self.open_card(card)

    def open_card(self, card: CordCard) -> None:
        """Its test knots and figures."""
        from companion.tui.screens.cord_card import CardScreen

        self.app.switch_screen(CardScreen(card))

    @work
    async def action_begin_another(self) -> None:
        """Make a new card, and go on to its test knots."""
        from companion.tui.card_forms import card_form
        from companion.tui.dialogs.form import FormDialog

        typed: Mapping[str, str] | None = None
        said: tuple[Notice, ...] = ()
        try:
            cards = self.workshop.cards()
        except WorkshopError as error:
            self.say(str(error))
            return
        while True:
            filled = await self.answer(FormDialog(card_form(cards, typed, said)))
            if filled is None:
                return
            typed = filled.typed
            try:
                card = self.workshop.add_tests(filled.value)
            except WorkshopError as error:
                said = (Notice("off", str(error)),)
                continue
            self.open_card(card)
            return

    def action_leave(self) -> None:
        """Back to the bench."""
        self.companion.to_bench()


def _card_rows(card: CordCard, columns: int) -> list[Row]:
    none = "" if card.tests or card.lessons else f", {count_of_tests(0)}"
    lines = [f"{cord_described(card)}{none}", *card_lines(card)]
    details = [Row(line, detail=True) for text in lines for line in hanging(text, columns, HANG)]
    return [Row(plain(card.name, columns), card.name), *details, Row("")]
