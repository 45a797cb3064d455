"""A new file of pieces from what still reads of a broken one and from the newest good copy. The broken one is kept."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from companion.core.values.merge_result import Merged
from companion.core.values.rescue_result import Rescue, Source
from companion.storage.backups import folder_of, sync_folder
from companion.storage.database import check_ours, open_database, sentences, transaction
from companion.storage.export.document import KeptCard, KeptPiece
from companion.storage.export.merging import merge_card, merge_piece
from companion.storage.salvage import Lost, is_whole, reading, salvage

Take = Callable[[KeptPiece | KeptCard], None]


def look(database: Path) -> Rescue:
    """What reads of the file and of the newest good copy; nothing is changed. Raises NotADatabase for a file that is
    another program's or a newer companion's, NotStored where there is no room to look."""
    with sentences(database):
        copy = _newest_good_copy(database)
        copied = _source(copy, _nothing) if copy else None
        if not database.exists():
            return Rescue("missing", Source(database.name, 0, 0, 0), copied)
        with reading(database) as db:
            _refuse_others(db, database)
            whole = is_whole(db)
            file = _counted(database.name, salvage(db), _nothing)
        return Rescue("sound" if whole and not file.lost else "damaged", file, copied)


def rescue(database: Path, now: datetime) -> Rescue:
    """Move the broken file aside under a dated name, and put a new one in its place that holds all of both: of a piece
    that both have, the longer journal. What is not broken is left as it is. Raises as `look` does."""
    found = look(database)
    if found.state == "sound" or (found.copy is None and not found.file.pieces and not found.file.cards):
        return found
    new = database.with_name(f".{database.name}.{os.getpid()}.rescued")
    try:
        with closing(open_database(new)) as db, sentences(new), transaction(db):
            merged = Merged()

            def take(kept: KeptPiece | KeptCard) -> None:
                if isinstance(kept, KeptPiece):
                    merge_piece(db, kept, merged)
                else:
                    merge_card(db, kept, merged)

            if found.state == "damaged":
                _source(database, take)
            copy = _newest_good_copy(database)
            if copy:
                _source(copy, take)
        aside = _put_in_place(new, database, now) if found.state == "damaged" else _put(new, database)
    finally:
        for left in (new, Path(f"{new}-journal")):
            with suppress(OSError):
                left.unlink(missing_ok=True)
    return replace(found, aside=aside, apart=merged.named("pieces", "apart") + merged.named("cards", "apart"))


def _nothing(kept: KeptPiece | KeptCard) -> None:
    """Only looked at."""


def _source(database: Path, take: Take) -> Source:
    with reading(database) as db:
        return _counted(database.name, salvage(db), take)


def _counted(name: str, found: Iterator[KeptPiece | KeptCard | Lost], take: Take) -> Source:
    pieces = events = cards = 0
    lost = []
    for one in found:
        if isinstance(one, Lost):
            lost.append(one.words)
            continue
        take(one)
        if isinstance(one, KeptPiece):
            pieces, events = pieces + 1, events + len(one.events)
        else:
            cards += 1
    return Source(name, pieces, events, cards, tuple(lost))


def _newest_good_copy(database: Path) -> Path | None:
    """Daily copies and those from before a change of shape, by the moment in their names."""
    folder = folder_of(database)
    if not folder.is_dir():
        return None
    for copy in sorted(folder.glob("companion-*.db"), key=lambda path: path.name, reverse=True):
        with reading(copy) as db:
            if is_whole(db):
                return copy
    return None


def _refuse_others(db: sqlite3.Connection, database: Path) -> None:
    """A file that opens well and is another program's, or a newer companion's, is none to rescue."""
    try:
        check_ours(db, database)
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return  # it doesn't even open


def _put_in_place(new: Path, database: Path, now: datetime) -> str:
    aside = _free(database.with_name(f"{database.stem}-damaged-{now.astimezone(UTC):%Y-%m-%d-%H%M%S}.sqlite3"))
    with sentences(database):
        os.link(database, aside)  # it has both names until the new one takes the first
        with suppress(FileNotFoundError):  # what the broken file would roll back is no business of the new one
            os.replace(f"{database}-journal", f"{aside}-journal")
    _put(new, database)
    return aside.name


def _put(new: Path, database: Path) -> str:
    with sentences(database):
        os.replace(new, database)
        sync_folder(database.parent)
    return ""


def _free(place: Path) -> Path:
    number, free = 1, place
    while free.exists():
        number += 1
        free = place.with_stem(f"{place.stem}_{number:02}")
    return free
