"""A copy of the file of pieces, made by SQLite's own backup while others may write, and kept only if it is sound."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path

from companion.core.values.errors import NotADatabase, NotStored
from companion.storage.files import written_whole
from companion.storage.sentences import damaged, errors_as_sentences

BUSY_SECONDS = 5.0
FOLDER = "backups"
PAGES_A_STEP = 256  # a window that confirms a step meanwhile waits for so many at most: milliseconds
MOST_WAITS = 4  # for another program that holds the file, each as long as the connection waits
MOST_RESTARTS = 5  # a copy begins anew where another window has written meanwhile; then it is made in one step


def folder_of(database: Path) -> Path:
    """Where the copies of that file are."""
    return database.with_name(FOLDER)


def copy_before_change(database: Path, version: int, now: datetime) -> Path:
    """A copy of the file made before its tables change. Daily copies do not push it out. Raises NotStored."""
    place = folder_of(database) / f"tallycord-{now:%Y-%m-%d}-version-{version}.db"
    try:
        with errors_as_sentences(database):
            return copy_whole(database, place)
    except NotStored as error:
        raise NotStored(
            f"The file of pieces is from an older version, and it could not be copied first. {error}"
        ) from error


def copy_whole(database: Path, place: Path) -> Path:
    """A copy of the file at that place: complete and on disk, or not there at all.

    Raises sqlite3.Error and OSError, and NotADatabase if the copy has a fault, because the file then has it too.
    """
    place.parent.mkdir(mode=0o700, exist_ok=True)
    with (
        written_whole(place) as new,
        closing(read_connection(database)) as source,
        closing(sqlite3.connect(new, isolation_level=None)) as target,
    ):
        target.execute("PRAGMA journal_mode = OFF")
        target.execute("PRAGMA synchronous = OFF")  # on disk before it has its name, once all of it is there
        _copy_pages(source, target)
        if not is_sound(target):
            raise NotADatabase(damaged(database))
    return place


def _copy_pages(source: sqlite3.Connection, target: sqlite3.Connection) -> None:
    restarts, waits, left = 0, 0, 1 << 62

    def look(status: int, remaining: int, total: int) -> None:
        nonlocal restarts, waits, left
        if status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            waits += 1
            if waits >= MOST_WAITS:
                raise sqlite3.OperationalError("database is locked")
        restarts += remaining > left
        left = remaining
        if restarts > MOST_RESTARTS:
            raise _TooManyRestarts

    try:
        source.backup(target, pages=PAGES_A_STEP, progress=look, sleep=0.001)
    except _TooManyRestarts:
        restarts, left = -(1 << 62), 1 << 62
        source.backup(target, progress=look, sleep=0.001)


class _TooManyRestarts(Exception):
    """Another window writes faster than the copy can be made."""


def is_sound(db: sqlite3.Connection) -> bool:
    """Whether SQLite finds no fault in the file."""
    return list(db.execute("PRAGMA quick_check(1)")) == [("ok",)]


def read_connection(database: Path) -> sqlite3.Connection:
    """A connection for reading. Like any reader's, it may have to roll back what a power cut left."""
    return sqlite3.connect(f"{database.absolute().as_uri()}?mode=rw", uri=True, timeout=BUSY_SECONDS / MOST_WAITS)
