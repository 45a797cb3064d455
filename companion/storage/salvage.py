"""What can still be read of a file of pieces: each piece up to the first event that cannot be read, and the cord
cards."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from companion.core.gate.journal_check import Unlikely, fold_checked
from companion.core.values.text import plain
from companion.storage import rows
from companion.storage.export.document import card_document, piece_document
from companion.storage.export.reading import NotOurs, card_of, piece_of
from companion.storage.kept import BeadRow, BeadTakenOut, DatedEvent, KeptCard, KeptPiece, Summary
from companion.storage.migrations import APPLICATION_ID, CHANGES

# What SQLite says of a broken file, and what its rows say where they hold what nobody wrote.
UNREADABLE = (sqlite3.DatabaseError, ValueError, TypeError)


class Lost(Struct, frozen=True):
    """Something that cannot be read, in words."""

    words: str


@contextmanager
def reading(database: Path) -> Iterator[sqlite3.Connection]:
    """A connection to a copy of the file and its rollback journal, so that nothing SQLite does can change the file."""
    with TemporaryDirectory(dir=database.parent, prefix=".reading-") as folder:
        copy = Path(folder) / "copy.db"
        shutil.copyfile(database, copy)
        with suppress(FileNotFoundError):
            shutil.copyfile(f"{database}-journal", f"{copy}-journal")
        with closing(sqlite3.connect(copy, isolation_level=None)) as db:
            yield db


def is_whole(db: sqlite3.Connection) -> bool:
    """Whether it is a file of pieces that this version knows and in which SQLite finds no fault."""
    try:
        (application,) = db.execute("PRAGMA application_id").fetchone()
        (version,) = db.execute("PRAGMA user_version").fetchone()
        sound = list(db.execute("PRAGMA integrity_check(1)")) == [("ok",)]
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return False
    return bool(sound and application == APPLICATION_ID and 0 < version <= len(CHANGES))


def salvage(db: sqlite3.Connection) -> Iterator[KeptPiece | KeptCard | Lost]:
    """Everything that can be read, one thing at a time, each checked as an import would; and what cannot."""
    for number in rows.numbers_that_read(db):
        yield from _piece(db, number)
    yield from _cards(db)


def _piece(db: sqlite3.Connection, number: int) -> Iterator[KeptPiece | Lost]:
    try:
        kept = rows.kept_piece(db, number, ())
    except UNREADABLE:
        yield Lost(f"{_name(db, number)}: its plan can't be read")
        return
    name = plain(kept.name)
    journal, whole = _journal(db, number)
    try:
        piece = fold_checked(kept.plan, (line.event for line in journal))
    except Unlikely as error:
        journal, whole = journal[: max(error.number - 1, 0)], False
        if not journal:
            yield Lost(f"{name}: its journal can't be read")
            return
        piece = fold_checked(kept.plan, (line.event for line in journal))
    kept = replace(kept, journal=journal, summary=Summary.of(piece, kept.summary.warning))
    try:
        checked = piece_of(json.loads(json.dumps(piece_document(kept))))
    except (NotOurs, *UNREADABLE) as error:
        yield Lost(f"{name}: {plain(str(error))}")
        return
    yield checked
    if not whole:
        yield Lost(f"{name}: its journal reads up to event {len(journal)} only")


def _journal(db: sqlite3.Connection, number: int) -> tuple[tuple[DatedEvent, ...], bool]:
    """The events up to the first that cannot be read, and whether all could be."""
    journal: list[DatedEvent] = []
    try:
        for line in rows.journal(db, number):
            journal.append(line)
    except UNREADABLE:
        return tuple(journal), False
    return tuple(journal), True


def settings_that_read(db: sqlite3.Connection) -> dict[str, Any]:
    """What the maker has set, if all of it can be read."""
    with suppress(*UNREADABLE):
        return rows.settings(db)
    return {}


def beads_that_read(db: sqlite3.Connection) -> tuple[BeadRow, ...]:
    """The bead box, where all of it reads."""
    with suppress(*UNREADABLE):
        return rows.bead_rows(db)
    return ()


def beads_taken_out_that_read(db: sqlite3.Connection) -> tuple[BeadTakenOut, ...]:
    """What was taken out of it, where all of that reads."""
    with suppress(*UNREADABLE):
        return rows.beads_taken_out(db)
    return ()


def _name(db: sqlite3.Connection, number: int) -> str:
    with suppress(*UNREADABLE):
        return plain(rows.piece_name(db, number))
    return f"piece number {number}"


def _cards(db: sqlite3.Connection) -> Iterator[KeptCard | Lost]:
    try:
        for row in rows.card_rows(db, "id"):
            yield card_of(json.loads(json.dumps(card_document(KeptCard(row, rows.card_entries(db, row.id))))))
    except sqlite3.OperationalError as error:
        if "no such table" not in str(error):  # an older file has no cards yet
            yield Lost("cord cards can't be read")
    except UNREADABLE as error:
        gone = "not a database" in str(error)
        yield Lost("it is no database any more" if gone else "not all cord cards can be read")
