"""The cord cards: what the maker knows of each cord worked one way."""

from __future__ import annotations

from collections.abc import Mapping

from textual import work

from companion.core.cord.cards import CordCard
from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.core.words.card_words import card_lines, cord_described, count_of_tests
from companion.core.words.notices import Notice
from companion.tui.commands import CORDS, OPEN_CARD, Command, bindings
from companion.tui.page import ListPage
from companion.tui.routes import ToBench, ToCard
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import hanging

DETAIL_EDGES = 7  # what a row's details are set in by, and the scroll bar
HANG = 2
NO_CARDS = (
    "No cord cards yet. + makes one.",
    "Knots in one cord use up more than knots in another. A card keeps what yours use up.",
)


class CordsScreen(ListPage):
    """Every card, with its figures."""

    BINDINGS = bindings(*CORDS)
    COMMANDS_HERE = CORDS
    heading = "Cords"

    def __init__(self, new: bool = False) -> None:
        super().__init__()
        self.begins_new = new

    def on_mount(self) -> None:
        self.show_rows()
        if self.begins_new:
            self.action_begin_another()

    def commands_now(self) -> tuple[Command, ...]:
        """Those that do something with the cursor where it is."""
        return tuple(command for command in CORDS if command is not OPEN_CARD or self.rows.chosen is not None)

    def on_resize(self) -> None:
        self.show_rows()

    def show_rows(self) -> None:
        """Read the cards anew."""
        cards: tuple[CordCard, ...] = ()
        try:
            cards = self.workshop.cards()
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
        columns = self.size.width - DETAIL_EDGES
        rows = [row for card in cards for row in _card_rows(card, columns)]
        if not rows:
            rows = [
                Row(line, detail=number > 0)
                for number, text in enumerate(NO_CARDS)
                for line in hanging(text, columns, 0)
            ]
        self.rows.set_rows(rows)

    def action_open_row(self) -> None:
        """Open the card under the cursor."""
        route = self.rows.chosen
        if isinstance(route, ToCard):
            self.go(route)

    def cannot_show(self, why: str) -> None:
        """The card can't be shown."""
        self.say(Notice("off", why))

    @work
    async def action_begin_another(self) -> None:
        """Make a new card, and go on to its test knots."""
        from companion.tui.cords.forms import card_form
        from companion.tui.dialogs.form import FormDialog

        typed: Mapping[str, str] | None = None
        said: tuple[Notice, ...] = ()
        try:
            cards = self.workshop.cards()
        except WorkshopError as error:
            self.say(Notice("off", str(error)))
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
            self.go(ToCard(card.name))
            return

    def action_leave(self) -> None:
        """Back to the bench."""
        self.go(ToBench())


def _card_rows(card: CordCard, columns: int) -> list[Row]:
    none = "" if card.tests or card.lessons else f", {count_of_tests(0)}"
    lines = [f"{cord_described(card)}{none}", *card_lines(card)]
    details = [Row(line, detail=True) for text in lines for line in hanging(text, columns, HANG)]
    return [Row(plain(card.name, columns), ToCard(card.name)), *details, Row("")]
