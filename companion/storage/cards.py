"""The store of cord cards, each with its test knots. Tests are only ever added: withdrawing one is an entry as well."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Sequence
from datetime import datetime

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.cord.lessons import Lesson, of_event
from companion.core.journal.events import Finished
from companion.core.values.errors import NotADatabase
from companion.core.values.plain_values import Misshapen
from companion.core.values.text import plain
from companion.storage import rows
from companion.storage.database import Database
from companion.storage.kept import WITHDRAWN, CardEntry, CardRow


class CardStore:
    """All cord cards, in the file of pieces."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def cards(self) -> tuple[CordCard, ...]:
        """Every card with its tests, by name. Raises NotStored, NotADatabase."""
        if not self._database.is_there():
            return ()
        with self._database.reading() as db:
            lessons = _lessons(db)
            return tuple(
                card_of(row, rows.card_entries(db, row.id), lessons.get(row.name.lower(), ()))
                for row in rows.card_rows(db, "name")
            )

    def add(self, card: CordCard, tests: Sequence[CardTest], at: datetime) -> None:
        """Add tests to the card of that name, in one transaction; the card is made if it does not exist."""
        with self._database.writing() as db:
            found = rows.card_named(db, card.name)
            row = CardRow(0, card.name, card.diameter_mm, card.layers, card.material, card.worked_with, at)
            number = found.id if found else rows.add_card(db, row)
            entries = [entry_of(test, at) for test in tests]
            rows.add_entries(db, number, entries, len(rows.card_entries(db, number)))

    def withdraw(self, name: str, at: datetime) -> None:
        """The latest test of the card of that name no longer counts. Nothing happens if the card has none."""
        with self._database.writing() as db:
            found = rows.card_named(db, name)
            entries = rows.card_entries(db, found.id) if found else ()
            if found and standing(entries):
                rows.add_entries(db, found.id, [CardEntry.withdrawal(at)], len(entries))


def card_of(row: CardRow, entries: Iterable[CardEntry], lessons: tuple[Lesson, ...] = ()) -> CordCard:
    """The card with those of its tests that count. Raises ValueError for one that cannot be right."""
    if not (row.diameter_mm > 0 and row.layers >= 1):
        raise Misshapen("a cord has a diameter and layers")
    tests = tuple(as_test(entry) for entry in standing(entries))
    return CordCard(row.name, row.diameter_mm, row.layers, row.material, row.worked_with, tests, lessons)


def standing(entries: Iterable[CardEntry]) -> list[CardEntry]:
    """The entries that count, without those that were withdrawn. Raises Misshapen if there was none to withdraw."""
    tests: list[CardEntry] = []
    for entry in entries:
        if entry.kind != WITHDRAWN:
            tests.append(entry)
        elif tests:
            tests.pop()
        else:
            raise Misshapen("there is no test to take out")
    return tests


def entry_of(test: CardTest, at: datetime) -> CardEntry:
    """A test made at that time, as it is stored."""
    row, touching = test.row, test.touching
    some = row or touching
    assert some is not None  # a test has one of them
    before_mm, after_mm = (row.before_mm, row.after_mm) if row else (None, None)
    row_mm = touching.row_mm if touching else None
    return CardEntry(at, test.kind, some.knots, before_mm, after_mm, row_mm, some.ruler_step_mm, test.typed)


def as_test(entry: CardEntry) -> CardTest:
    """The test of a stored entry. Raises Misshapen if it is none."""
    before_mm, after_mm, row_mm, knots, ruler_mm = (
        entry.before_mm, entry.after_mm, entry.row_mm, entry.knots, entry.ruler_step_mm,
    )  # fmt: skip
    if entry.kind == WITHDRAWN or (before_mm is None) != (after_mm is None):
        raise Misshapen("a number is expected", ("row", "before_mm" if before_mm is None else "after_mm"))
    row = None if before_mm is None or after_mm is None else KnotTest(before_mm, after_mm, knots, ruler_mm)
    touching = None if row_mm is None else TouchingRow(row_mm, knots, ruler_mm)
    return CardTest(entry.kind, row, touching, entry.typed)


def _lessons(db: sqlite3.Connection) -> dict[str, tuple[Lesson, ...]]:
    """What finished pieces taught, by the card's name in lower case. A piece that was reopened teaches nothing until it
    is finished once more."""
    found: dict[str, tuple[Lesson, ...]] = {}
    for piece, last_event in rows.finishes(db):
        try:
            event = last_event()
            if isinstance(event, Finished) and event.card:
                card = event.card.lower()
                found[card] = found.get(card, ()) + of_event(piece, event)
        except ValueError as error:
            raise NotADatabase(f"What the piece {plain(piece)} taught can't be read.") from error
    return found
