"""The store of cord cards: each with its test knots, which are only added to: taking one back is an entry as well."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, get_args

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.cord.lessons import Lesson, of_event
from companion.core.journal.event_document import event_from_document
from companion.core.journal.events import Finished
from companion.core.values.design import KNOT_KINDS, Material, Tool
from companion.core.values.errors import NotADatabase
from companion.core.values.text import plain
from companion.storage.database import damaged, open_database, sentences, transaction, utc_now

WITHDRAWN = "withdrawn"  # the kind of an entry that takes back the latest test that counts


class CardStore:
    """All cord cards, in the file of pieces. Opened on first need; made on first write."""

    def __init__(self, path: Path, now: Callable[[], datetime] = utc_now) -> None:
        self.path = path
        self._now = now
        self._db: sqlite3.Connection | None = None

    def close(self) -> None:
        """Let the file go."""
        if self._db is not None:
            self._db.close()
            self._db = None

    def _open(self) -> sqlite3.Connection:
        if self._db is None:
            self._db = open_database(self.path, now=self._now)
        return self._db

    @property
    def has_written(self) -> bool:
        """Whether anything was written through here since it was opened."""
        return self._db is not None and self._db.total_changes > 0

    def cards(self) -> tuple[CordCard, ...]:
        """Every card with its tests, by name. Raises NotStored, NotADatabase."""
        with sentences(self.path):
            if self._db is None and not self.path.exists():
                return ()
            db = self._open()
            found = db.execute(
                "SELECT id, name, diameter_mm, layers, material, worked_with FROM card ORDER BY name"
            ).fetchall()
            lessons = _lessons(db)
            try:
                return tuple(_card(db, values, lessons) for values in found)
            except (ValueError, TypeError, AttributeError, IndexError) as error:  # nobody wrote it
                raise NotADatabase(damaged(self.path)) from error

    def add(self, card: CordCard, tests: Sequence[CardTest], at: datetime) -> None:
        """Tests added to the card of that name, which is made where it is not there: one transaction."""
        db = self._open()
        with sentences(self.path), transaction(db):
            number = _number(db, card, at)
            (seq,) = db.execute("SELECT count(*) FROM card_test WHERE card_id = ?", (number,)).fetchone()
            for place, test in enumerate(tests, start=seq + 1):
                db.execute(
                    "INSERT INTO card_test VALUES (?,?,?,?,?,?,?,?,?,?)",
                    (number, place, at.isoformat(), test.kind, *_lengths(test), test.typed),
                )

    def withdraw(self, name: str, at: datetime) -> None:
        """The latest test of the card of that name no longer counts; on a card without any, nothing happens."""
        db = self._open()
        with sentences(self.path), transaction(db):
            found = db.execute("SELECT id FROM card WHERE name = ?", (name,)).fetchone()
            if found and _tests(db, found[0]):
                (seq,) = db.execute("SELECT count(*) FROM card_test WHERE card_id = ?", found).fetchone()
                db.execute(
                    "INSERT INTO card_test VALUES (?,?,?,?,0,NULL,NULL,NULL,0,'')",
                    (found[0], seq + 1, at.isoformat(), WITHDRAWN),
                )


def _card(db: sqlite3.Connection, values: Sequence[Any], lessons: dict[str, tuple[Lesson, ...]]) -> CordCard:
    number, name, diameter_mm, layers, material, tool = values
    card = CordCard(name, diameter_mm, layers, material, tool, _tests(db, number), lessons.get(name.lower(), ()))
    numbers = [card.diameter_mm, card.layers, *(n for test in card.tests for n in _lengths(test) if n is not None)]
    words = card.material in get_args(Material) and card.worked_with in get_args(Tool)
    kinds = all(test.kind in KNOT_KINDS for test in card.tests)
    if not (words and kinds and all(isinstance(number, int | float) for number in numbers)):
        raise ValueError("a card that can't be")
    if not (card.diameter_mm > 0 and card.layers >= 1):
        raise ValueError("a cord without a diameter or layers")
    return card


def _lessons(db: sqlite3.Connection) -> dict[str, tuple[Lesson, ...]]:
    """What finished pieces taught, by the card's name in small letters. A piece that was opened again teaches nothing
    until it is finished once more."""
    found: dict[str, tuple[Lesson, ...]] = {}
    for number, piece in db.execute("SELECT id, name FROM piece WHERE state = 'finished' ORDER BY id").fetchall():
        kind, data = db.execute(
            "SELECT kind, data FROM event WHERE piece_id = ? ORDER BY seq DESC LIMIT 1", (number,)
        ).fetchone()
        try:
            event = event_from_document(kind, json.loads(data))
            if isinstance(event, Finished) and event.card:
                card = event.card.lower()
                found[card] = found.get(card, ()) + of_event(piece, event)
        except (ValueError, TypeError) as error:
            raise NotADatabase(f"What the piece {plain(piece)} taught can't be read.") from error
    return found


def _number(db: sqlite3.Connection, card: CordCard, at: datetime) -> int:
    found = db.execute("SELECT id FROM card WHERE name = ?", (card.name,)).fetchone()
    if found:
        return int(found[0])
    added = db.execute(
        "INSERT INTO card (name, diameter_mm, layers, material, worked_with, made_at) VALUES (?,?,?,?,?,?)",
        (card.name, card.diameter_mm, card.layers, card.material, card.worked_with, at.isoformat()),
    )
    assert added.lastrowid is not None  # it is one, after an INSERT
    return added.lastrowid


def _lengths(test: CardTest) -> tuple[Any, ...]:
    """Knots, before, after, row and ruler of a test, None for what it has not."""
    row, touching = test.row, test.touching
    some = row or touching
    assert some is not None  # a test has one of them
    before_after = (row.before_mm, row.after_mm) if row else (None, None)
    return (some.knots, *before_after, touching.row_mm if touching else None, some.ruler_step_mm)


def _tests(db: sqlite3.Connection, number: int) -> tuple[CardTest, ...]:
    found = db.execute(
        "SELECT kind, knots, before_mm, after_mm, row_mm, ruler_step_mm, typed FROM card_test "
        "WHERE card_id = ? ORDER BY seq",
        (number,),
    )
    tests: list[CardTest] = []
    for kind, knots, before_mm, after_mm, row_mm, ruler_mm, typed in found:
        if kind == WITHDRAWN:
            tests.pop()
            continue
        row = None if before_mm is None else KnotTest(before_mm, after_mm, knots, ruler_mm)
        touching = None if row_mm is None else TouchingRow(row_mm, knots, ruler_mm)
        tests.append(CardTest(kind, row, touching, typed))
    return tuple(tests)
