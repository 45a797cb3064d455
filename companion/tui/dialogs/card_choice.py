"""Which cord card a piece is made by: those that fit its cord first; or the design's own numbers, or an estimate."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from companion.core.cord.cards import CordCard
from companion.core.cord.cord import Cord
from companion.core.plan.card_choice import AS_DESIGNED, ESTIMATED, CordChoice, by_fit
from companion.core.values.text import plain
from companion.core.words.card_words import cord_described, tested_lines
from companion.tui.commands import PICK, bindings
from companion.tui.dialogs.dialog import Dialog
from companion.tui.widgets.rows import Row, Rows
from companion.tui.widgets.text import KeyLine, Rule, TextLine
from companion.tui.widgets.wrapping import hanging

EDGES = 7  # what a row's details are set in by, and the scroll bar


class CardChoiceDialog(Dialog[CordChoice]):
    """Gives back where the cord numbers come from, or None when the maker leaves it."""

    BINDINGS = bindings(*PICK)

    def __init__(self, cards: Sequence[CordCard], cord: Cord, begin_with: CordChoice) -> None:
        super().__init__()
        self.cards, self.cord, self.begin_with = by_fit(cards, cord), cord, begin_with

    def compose(self) -> ComposeResult:
        layers = f", {self.cord.layers} layers" if self.cord.layers > 1 else ", one layer"
        title = f"Cord numbers for {plain(self.cord.name, 24)} {self.cord.diameter_mm:.4g} mm{layers}"
        with Vertical(id="show"):
            yield TextLine(Content.styled(title, "bold"), id="heading")
            yield TextLine("")
            yield Rows(id="choices")
            yield Rule()
            yield KeyLine(*PICK)

    def on_mount(self) -> None:
        rows = self.query_one(Rows)
        rows.set_rows(self._rows())
        rows.focus()
        self.call_after_refresh(rows.begin_with, self.begin_with)  # there is a height to scroll in only then

    def on_resize(self) -> None:
        self.query_one(Rows).set_rows(self._rows())

    def _rows(self) -> list[Row]:
        columns = self.app.size.width - EDGES
        found = [row for card, fits in self.cards for row in _card_rows(card, fits, columns)]
        if not found:
            found = [Row("No cord cards yet: k on the bench makes one.", detail=True)]
        return [
            Row("as the design says", AS_DESIGNED),
            Row("Cord cards"),
            *found,
            Row("Without a card"),
            Row("estimated from the cord's diameter", ESTIMATED),
        ]

    def action_cursor_up(self) -> None:
        self.query_one(Rows).move(-1)

    def action_cursor_down(self) -> None:
        self.query_one(Rows).move(1)

    @on(Rows.Chosen)
    async def chosen(self) -> None:
        await self.click("take")

    def action_take(self) -> None:
        """Take the one under the cursor."""
        choice = self.query_one(Rows).chosen
        if isinstance(choice, CordChoice):
            self.dismiss(choice)

    def action_drop(self) -> None:
        """Leave it as it is."""
        self.dismiss(None)


def _card_rows(card: CordCard, fits: bool, columns: int) -> list[Row]:
    texts = [cord_described(card), *(tested_lines(card) or ["not tested: all is estimated from the diameter"])]
    details = [Row(line, detail=True) for text in texts for line in hanging(text, columns, 2)]
    return [Row(plain(card.name, columns), CordChoice("card", card.name), "" if fits else "△ another cord"), *details]
