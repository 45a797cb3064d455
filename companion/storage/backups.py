"""Dated copies of the file of pieces in a folder beside it, one a day; of the older ones only some are kept."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from datetime import UTC, datetime
from pathlib import Path

from companion.core.values.retention import DAY_SECONDS, Copy, is_due, kept
from companion.storage.database_copy import copy_whole, folder_of, read_connection
from companion.storage.migrations import APPLICATION_ID
from companion.storage.rows import count_events
from companion.storage.sentences import errors_as_sentences

EVENTS_APART = 100  # where the clock can't tell, a copy is due once so many events are in none
_NAME, _END, _STAMP_LETTERS = "tallycord-", ".db", 17
_STAMP = "%Y-%m-%d-%H%M%S"


def copies_of(database: Path) -> tuple[Copy, ...]:
    """The daily copies of that file, the oldest first. Raises OSError."""
    folder = folder_of(database)
    if not folder.is_dir():
        return ()
    found = []
    for entry in sorted(os.listdir(folder)):
        if at := _dated(entry):
            found.append(_copy(entry, at))
    return tuple(sorted(found, key=lambda copy: (copy.at, copy.name)))


def _dated(name: str) -> datetime | None:
    """When a copy was made, by its name: "tallycord-2026-12-01-120000.db", or with "_02" before its end. None for any
    other name, such as one with a 31 February."""
    text, second, number = name.removeprefix(_NAME).removesuffix(_END).partition("_")
    if f"{_NAME}{text}{second}{number}{_END}" != name or bool(second) != number.isdigit():
        return None
    if len(text) != _STAMP_LETTERS or not text.replace("-", "").isdigit():
        return None
    with suppress(ValueError):
        return datetime.fromisoformat(text).replace(tzinfo=UTC)
    return None


def _copy(name: str, at: datetime) -> Copy:
    day = at.toordinal()
    return Copy(name, at.timestamp(), day, (day - 1) // 7, at.year * 12 + at.month)


def back_up_where_due(database: Path, now: datetime) -> Path | None:
    """Make a copy if the newest is a day old. The copy, or None if none was due.

    Raises NotStored if it cannot be made, and NotADatabase if the file turns out to be damaged; the older copies then
    stay as they are.
    """
    with errors_as_sentences(database):
        copies = copies_of(database)
        due = is_due(copies, now.timestamp())
        if due is False or not database.exists() or not _is_ours(database):
            return None
        if due is None:
            most = max(events_in(folder_of(database) / copy.name) for copy in copies)
            due = events_in(database) - most >= EVENTS_APART
        if not due:
            return None
        made = copy_whole(database, free_place(folder_of(database) / f"tallycord-{stamp(now)}.db"))
        _thin_out(database, now)
        return made


def _is_ours(database: Path) -> bool:
    with closing(read_connection(database)) as db:
        return bool(db.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID)


def stamp(now: datetime) -> str:
    """A moment in the form that it has in a file's name."""
    return now.astimezone(UTC).strftime(_STAMP)


def free_place(place: Path) -> Path:
    """That place, or the next one with a number if something is there already."""
    number, free = 1, place
    while free.exists():
        number += 1
        free = place.with_stem(f"{place.stem}_{number:02}")
    return free


def _thin_out(database: Path, now: datetime) -> None:
    copies = copies_of(database)
    keep = kept(copies, now.timestamp())
    for copy in copies:
        if copy.name not in keep:
            with suppress(OSError):  # one too many hurts nobody
                (folder_of(database) / copy.name).unlink()
    for begun in folder_of(database).glob(".tallycord-*.new"):  # what a power cut left
        with suppress(OSError):
            if now.timestamp() - begun.stat().st_mtime > DAY_SECONDS:
                begun.unlink()


def events_in(database: Path) -> int:
    """How many events that file holds; 0 if it cannot be read."""
    try:
        with closing(read_connection(database)) as db:
            return count_events(db)
    except sqlite3.Error:
        return 0
