"""What the database keeps of pieces and cards, one at a time, in the order in which they were made."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from datetime import datetime
from typing import Any

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.gate.plan_document import from_document
from companion.core.journal.event_document import event_from_document
from companion.core.journal.fold import fold
from companion.storage.export.document import WITHDRAWN, Dated, KeptCard, KeptPiece, KeptTest

PIECE_COLUMNS = "uid, name, trouble, design_name, design_path, design_digest, design_text, plan, started_at"
_TEST = "at, kind, knots, before_mm, after_mm, row_mm, ruler_step_mm, typed"


def piece_numbers(db: sqlite3.Connection) -> list[int]:
    """The database's own number of every piece."""
    return [number for (number,) in db.execute("SELECT id FROM piece ORDER BY id")]


def kept_piece(db: sqlite3.Connection, number: int) -> KeptPiece:
    """All that is kept of a piece, as it was at one moment. Raises ValueError for what can't be read."""
    db.execute("BEGIN")
    try:
        (found,) = db.execute(f"SELECT {PIECE_COLUMNS} FROM piece WHERE id = ?", (number,)).fetchall()
        events = journal(db, number)
    finally:
        db.execute("COMMIT")
    uid, name, warning, design_name, path, digest, text, plan_text, started_at = found
    plan, piece = from_document(json.loads(plan_text)), fold(event for _, event in events)
    started = datetime.fromisoformat(started_at)
    return KeptPiece(uid, name, warning, design_name, path, digest, text, plan, started, events, piece)


def journal(db: sqlite3.Connection, number: int) -> tuple[Dated, ...]:
    """The events of a piece with their times. Raises ValueError for one that can't be read."""
    rows = db.execute("SELECT at, kind, data FROM event WHERE piece_id = ? ORDER BY seq", (number,))
    return tuple((datetime.fromisoformat(at), event_from_document(kind, json.loads(data))) for at, kind, data in rows)


def kept_cards(db: sqlite3.Connection) -> Iterator[KeptCard]:
    """Every card with all its entries. Raises ValueError for what can't be read."""
    rows = db.execute("SELECT id, name, diameter_mm, layers, material, worked_with, made_at FROM card ORDER BY id")
    for number, *values, made_at in rows.fetchall():
        yield KeptCard(CordCard(*values), datetime.fromisoformat(made_at), card_entries(db, number))


def card_entries(db: sqlite3.Connection, number: int) -> tuple[KeptTest, ...]:
    """The entries of a card, in their order."""
    rows = db.execute(f"SELECT {_TEST} FROM card_test WHERE card_id = ? ORDER BY seq", (number,))
    return tuple(_entry(*values) for values in rows)


def _entry(at: str, kind: Any, knots: int, before: Any, after: Any, row: Any, ruler_mm: float, typed: str) -> KeptTest:
    if kind == WITHDRAWN:
        return KeptTest(datetime.fromisoformat(at), None)
    lengths = None if before is None else KnotTest(before, after, knots, ruler_mm)
    touching = None if row is None else TouchingRow(row, knots, ruler_mm)
    return KeptTest(datetime.fromisoformat(at), CardTest(kind, lengths, touching, typed))
