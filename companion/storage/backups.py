"""Dated copies of the file of pieces, in a folder beside it: before its shape changes, and once a day.

A copy is made by SQLite's own backup while others may write, has a new name until it is whole and on disk, and is only
kept where SQLite finds no fault in it.
"""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import closing, suppress
from datetime import UTC, datetime
from pathlib import Path

from companion.core.values.errors import NotADatabase, NotStored
from companion.core.values.retention import DAY_SECONDS, Copy, is_due, kept
from companion.storage.database import BUSY_SECONDS, damaged, sentences
from companion.storage.migrations import APPLICATION_ID

FOLDER = "backups"
EVENTS_APART = 100  # where the clock can't tell, a copy is due once so many events are in none
PAGES_A_STEP = 256  # a window that confirms a step meanwhile waits for so many at most: milliseconds
MOST_WAITS = 4  # for another program that holds the file, each as long as the connection waits
MOST_RESTARTS = 5  # a copy begins anew where another window has written meanwhile; then it is made in one step
_NAME = re.compile(r"companion-(\d{4}-\d\d-\d\d-\d{6})(?:_\d+)?\.db")
_STAMP = "%Y-%m-%d-%H%M%S"


def folder_of(database: Path) -> Path:
    """Where the copies of that file lie."""
    return database.with_name(FOLDER)


def copies_of(database: Path) -> tuple[Copy, ...]:
    """The daily copies of that file, the oldest first. Raises OSError."""
    folder = folder_of(database)
    if not folder.is_dir():
        return ()
    found = []
    for entry in sorted(os.listdir(folder)):
        match = _NAME.fullmatch(entry)
        if match:
            with suppress(ValueError):  # a name with a 31 February is none of ours
                found.append(_copy(entry, datetime.strptime(match.group(1), _STAMP).replace(tzinfo=UTC)))
    return tuple(sorted(found, key=lambda copy: (copy.at, copy.name)))


def _copy(name: str, at: datetime) -> Copy:
    day = at.toordinal()
    return Copy(name, at.timestamp(), day, (day - 1) // 7, at.year * 12 + at.month)


def back_up_where_due(database: Path, now: datetime) -> Path | None:
    """A copy where the newest is a day old; the copy, None where none was due.

    Raises NotStored where it can't be made, NotADatabase where the file turns out to be damaged: then the older copies
    stay as they are.
    """
    with sentences(database):
        if not database.exists() or not _is_ours(database):
            return None
        copies = copies_of(database)
        due = is_due(copies, now.timestamp())
        if due is None:
            most = max(events_in(folder_of(database) / copy.name) for copy in copies)
            due = events_in(database) - most >= EVENTS_APART
        if not due:
            return None
        made = copy_whole(database, _free_place(folder_of(database), now))
        _thin_out(database, now)
        return made


def copy_before_change(database: Path, version: int, now: datetime) -> Path:
    """A copy of the file before its shape changes, which daily copies don't push out. Raises NotStored."""
    place = folder_of(database) / f"companion-{now:%Y-%m-%d}-version-{version}.db"
    try:
        with sentences(database):
            return copy_whole(database, place)
    except NotStored as error:
        raise NotStored(
            f"The file of pieces is of an older companion, and the copy to be kept of it can't be made. {error}"
        ) from error


def _is_ours(database: Path) -> bool:
    with closing(_connect(database)) as db:
        return bool(db.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID)


def _free_place(folder: Path, now: datetime) -> Path:
    stamp = f"companion-{now.astimezone(UTC).strftime(_STAMP)}"
    place, number = folder / f"{stamp}.db", 1
    while place.exists():
        number += 1
        place = folder / f"{stamp}_{number:02}.db"
    return place


def _thin_out(database: Path, now: datetime) -> None:
    copies = copies_of(database)
    keep = kept(copies, now.timestamp())
    for copy in copies:
        if copy.name not in keep:
            with suppress(OSError):  # one too many hurts nobody
                (folder_of(database) / copy.name).unlink()
    for begun in folder_of(database).glob(".companion-*.new"):  # what a power cut left
        with suppress(OSError):
            if now.timestamp() - begun.stat().st_mtime > DAY_SECONDS:
                begun.unlink()


def copy_whole(database: Path, place: Path) -> Path:
    """A copy of the file at that place: whole and on disk, or not there at all.

    Raises sqlite3.Error and OSError, NotADatabase where the copy has a fault, as the file then has.
    """
    place.parent.mkdir(mode=0o700, exist_ok=True)
    new = place.with_name(f".{place.name}.{os.getpid()}.new")
    try:
        os.close(os.open(new, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600))
        with closing(_connect(database)) as source, closing(sqlite3.connect(new, isolation_level=None)) as target:
            target.execute("PRAGMA journal_mode = OFF")
            target.execute("PRAGMA synchronous = OFF")  # on disk before it has its name: below
            _copy_pages(source, target)
            if not is_sound(target):
                raise NotADatabase(damaged(database))
        with new.open("rb+") as file:
            os.fsync(file.fileno())
        os.replace(new, place)
        sync_folder(place.parent)
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)
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
    """Another window writes faster than the copy is made."""


def is_sound(db: sqlite3.Connection) -> bool:
    """Whether SQLite finds no fault in the file."""
    return list(db.execute("PRAGMA quick_check(1)")) == [("ok",)]


def events_in(database: Path) -> int:
    """How many events that file holds; none where it can't be read."""
    try:
        with closing(_connect(database)) as db:
            return int(db.execute("SELECT count(*) FROM event").fetchone()[0])
    except sqlite3.Error:
        return 0


def _connect(database: Path) -> sqlite3.Connection:
    """A connection that reads; it may roll back what a power cut left, as any reader must."""
    return sqlite3.connect(f"{database.absolute().as_uri()}?mode=rw", uri=True, timeout=BUSY_SECONDS / MOST_WAITS)


def sync_folder(folder: Path) -> None:
    """A rename in that folder on disk too; where folders can't be opened, that is the system's own affair."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)
