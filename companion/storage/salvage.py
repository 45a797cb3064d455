"""What still reads of a file of pieces: pieces up to the first event that doesn't, and cord cards that do."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from companion.core.gate.journal_check import Unlikely, fold_checked
from companion.core.gate.plan_document import from_document
from companion.core.journal.event_document import event_from_document
from companion.core.values.text import plain
from companion.storage.export.document import (
    Dated,
    KeptCard,
    KeptPiece,
    NotOurs,
    card_document,
    card_of,
    piece_document,
    piece_of,
)
from companion.storage.export.reading import PIECE_COLUMNS, kept_cards
from companion.storage.migrations import APPLICATION_ID, CHANGES

_NUMBERS = (
    "SELECT id FROM piece ORDER BY id",
    "SELECT id FROM piece ORDER BY id DESC",
    "SELECT id FROM piece INDEXED BY piece_by_touch",
    "SELECT DISTINCT piece_id FROM event",
)


@dataclass(frozen=True, slots=True)
class Lost:
    """Something that does not read, in words."""

    words: str


@contextmanager
def reading(database: Path) -> Iterator[sqlite3.Connection]:
    """A connection to a copy of the file and its rollback journal: whatever SQLite does to it, the file stays."""
    with TemporaryDirectory(dir=database.parent, prefix=".reading-") as folder:
        copy = Path(folder) / "copy.db"
        shutil.copyfile(database, copy)
        with suppress(FileNotFoundError):
            shutil.copyfile(f"{database}-journal", f"{copy}-journal")
        with closing(sqlite3.connect(copy, isolation_level=None)) as db:
            yield db


def is_whole(db: sqlite3.Connection) -> bool:
    """Whether it is a file of pieces that this companion knows, and SQLite finds no fault in it."""
    try:
        (application,) = db.execute("PRAGMA application_id").fetchone()
        (version,) = db.execute("PRAGMA user_version").fetchone()
        sound = list(db.execute("PRAGMA integrity_check(1)")) == [("ok",)]
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return False
    return bool(sound and application == APPLICATION_ID and 0 < version <= len(CHANGES))


def salvage(db: sqlite3.Connection) -> Iterator[KeptPiece | KeptCard | Lost]:
    """Everything that reads, one at a time, each looked at as an import would; and what does not."""
    for number in sorted(_numbers(db)):
        yield from _piece(db, number)
    yield from _cards(db)


def _numbers(db: sqlite3.Connection) -> set[int]:
    found: set[int] = set()
    for statement in _NUMBERS:
        with suppress(sqlite3.DatabaseError, UnicodeDecodeError):
            for (number,) in db.execute(statement):
                if isinstance(number, int):
                    found.add(number)
    return found


def _piece(db: sqlite3.Connection, number: int) -> Iterator[KeptPiece | Lost]:
    try:
        row = db.execute(f"SELECT {PIECE_COLUMNS} FROM piece WHERE id = ?", (number,)).fetchone()
        uid, name, warning, design_name, path, digest, text, plan_text, started_at = row
        plan, started = from_document(json.loads(plan_text)), datetime.fromisoformat(started_at)
    except (sqlite3.DatabaseError, ValueError, TypeError):
        yield Lost(f"{_name(db, number)}: its plan can't be read")
        return
    events, whole = _events(db, number)
    try:
        piece = fold_checked(plan, (event for _, event in events))
    except Unlikely as error:
        events, whole = events[: max(error.number - 1, 0)], False
        if not events:
            yield Lost(f"{plain(str(name))}: its journal can't be read")
            return
        piece = fold_checked(plan, (event for _, event in events))
    kept = KeptPiece(uid, name, warning, design_name, path, digest, text, plan, started, events, piece)
    try:
        checked = piece_of(json.loads(json.dumps(piece_document(kept))))
    except (NotOurs, ValueError, TypeError) as error:
        yield Lost(f"{plain(str(name))}: {plain(str(error))}")
        return
    yield checked
    if not whole:
        yield Lost(f"{checked.name}: its journal reads up to event {len(events)} only")


def _events(db: sqlite3.Connection, number: int) -> tuple[tuple[Dated, ...], bool]:
    """The events up to the first that can't be read, and whether there was none such."""
    events: list[Dated] = []
    try:
        rows = db.execute("SELECT seq, at, kind, data FROM event WHERE piece_id = ? ORDER BY seq", (number,))
        for seq, at, kind, data in rows:
            if seq != len(events) + 1:
                return tuple(events), False
            events.append((datetime.fromisoformat(at), event_from_document(kind, json.loads(data))))
    except (sqlite3.DatabaseError, ValueError, TypeError, AttributeError):
        return tuple(events), False
    return tuple(events), True


def _name(db: sqlite3.Connection, number: int) -> str:
    with suppress(sqlite3.DatabaseError, UnicodeDecodeError):
        found: Any = db.execute("SELECT name FROM piece WHERE id = ?", (number,)).fetchone()
        if found and isinstance(found[0], str):
            return plain(found[0])
    return f"piece number {number}"


def _cards(db: sqlite3.Connection) -> Iterator[KeptCard | Lost]:
    try:
        for kept in kept_cards(db):
            card = card_of(json.loads(json.dumps(card_document(kept))))
            yield replace(card, card=kept.card)
    except sqlite3.OperationalError as error:
        if "no such table" not in str(error):  # an older file has no cards yet
            yield Lost("cord cards can't be read")
    except (sqlite3.DatabaseError, ValueError, TypeError) as error:
        gone = "not a database" in str(error)
        yield Lost("it is no database any more" if gone else "not all cord cards can be read")
