"""Cord cards: what the maker knows of each cord."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from companion.core.cord.cards import CardTest, CordCard, card_figures
from companion.core.cord.cord import CardFigures
from companion.core.values.text import join_words, plain
from companion.storage.cards import CardStore
from companion.storage.database import Database


class CordCards:
    """All cord cards, and the test knots that make them."""

    def __init__(self, database: Database, now: Callable[[], datetime]) -> None:
        self._store = CardStore(database)
        self._now = now

    def all(self) -> tuple[CordCard, ...]:
        """Every cord card, by name."""
        return self._store.cards()

    def named(self, name: str) -> CordCard | None:
        """The cord card of that name, capitals or not; None where there is none."""
        wanted = name.strip().lower()
        return next((card for card in self.all() if card.name.lower() == wanted), None)

    def none_named(self, name: str) -> str:
        """That there is no card of that name, and which there are."""
        names = [plain(card.name, 60) for card in self.all()]
        there = f"There are {join_words(names)}." if len(names) > 1 else f"There is {names[0]}." if names else ""
        return f"There is no cord card named {plain(name, 60)}. {there or '`tallycord cord NAME` makes one.'}"

    def figures(self, name: str | None) -> CardFigures | None:
        """What the card of that name knows, for a plan."""
        card = self.named(name) if name is not None else None
        return None if card is None else card_figures(card)

    def add_tests(self, card: CordCard, *tests: CardTest) -> CordCard:
        """Tests added to that card, which is made where there is none of its name; the card as it is then."""
        self._store.add(card, tests, self._now())
        return self._again(card)

    def withdraw_test(self, card: CordCard) -> CordCard:
        """That card without its latest test. Taking back is an entry too; nothing is lost. Raises NotStored."""
        self._store.withdraw(card.name, self._now())
        return self._again(card)

    def _again(self, card: CordCard) -> CordCard:
        found = self.named(card.name)
        assert found is not None  # cards are never taken away
        return found
