"""Which cord card a piece is made by: those that fit its cord first; or the design's own numbers, or an estimate."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.cord.cards import CordCard
from companion.core.cord.cord import AS_DESIGNED, ESTIMATED, Cord, CordChoice
from companion.core.plan.card_choice import by_fit
from companion.core.values.text import cords_together, plain
from companion.core.words.card_words import cord_described, tested_lines
from companion.tui.dialogs.choose import Choices
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import hanging

EDGES = 7  # what a row's details are set in by, and the scroll bar


def card_choices(cards: Sequence[CordCard], cord: Cord, begin_with: CordChoice) -> Choices[CordChoice]:
    """Where the cord numbers of a piece come from."""
    title = f"Cord card for {plain(cord.name, 24)} {cord.diameter_mm:.4g} mm, {cords_together(cord.layers)}"
    fitting = by_fit(cards, cord)

    def rows(columns: int) -> list[Row]:
        found = [row for card, fits in fitting for row in _card_rows(card, fits, columns - EDGES)]
        if not found:
            found = [Row("No cord cards yet: k on the bench makes one.", detail=True)]
        return [
            Row("as the design says", AS_DESIGNED),
            Row("Cord cards"),
            *found,
            Row("Without a card"),
            Row("estimated from the cord's diameter", ESTIMATED),
        ]

    return Choices(title, rows, begin_with=begin_with)


def _card_rows(card: CordCard, fits: bool, columns: int) -> list[Row]:
    texts = [cord_described(card), *(tested_lines(card) or ["not tested: all is estimated from the diameter"])]
    details = [Row(line, detail=True) for text in texts for line in hanging(text, columns, 2)]
    return [Row(plain(card.name, columns), CordChoice("card", card.name), "" if fits else "△ another cord"), *details]
