"""A new file of pieces, made from what can still be read of a broken one and from the newest good copy. The broken file
is kept."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from datetime import datetime
from pathlib import Path

from msgspec.structs import replace

from companion.core.values.merge_result import Merged
from companion.core.values.rescue_result import Rescue, Source
from companion.storage import rows
from companion.storage.backups import free_place, stamp
from companion.storage.database import Database, check_ours
from companion.storage.database_copy import folder_of
from companion.storage.export.merging import merge_card, merge_piece
from companion.storage.files import written_whole
from companion.storage.kept import KeptCard, KeptPiece
from companion.storage.salvage import (
    Lost,
    beads_taken_out_that_read,
    beads_that_read,
    is_whole,
    reading,
    salvage,
    settings_that_read,
)
from companion.storage.sentences import errors_as_sentences


def look(database: Path) -> Rescue:
    """What can be read of the file and of the newest good copy; nothing is changed. Raises NotADatabase for a file of
    another program or of a newer version, and NotStored if there is no room to look."""
    with errors_as_sentences(database):
        copy = _newest_good_copy(database)
        copied = None
        if copy:
            with reading(copy) as db:
                copied = _counted(db, copy.name)
        if not database.exists():
            return Rescue("missing", Source(database.name, 0, 0, 0), copied)
        with reading(database) as db:
            _refuse_others(db, database)
            whole = is_whole(db)
            file = _counted(db, database.name)
        return Rescue("sound" if whole and not file.lost else "damaged", file, copied)


def rescue(database: Path, now: datetime) -> Rescue:
    """Move the broken file aside under a dated name, and put in its place a new one with everything that both hold:
    of a piece that is in both, the longer journal. A file that is not broken is left as it is. Raises what `look`
    raises."""
    found = look(database)
    if found.state == "sound" or (found.copy is None and not found.file.pieces and not found.file.cards):
        return found
    merged, damaged = Merged(), found.state == "damaged"
    sources = [place for place in (database if damaged else None, _newest_good_copy(database)) if place]
    with errors_as_sentences(database), written_whole(database) as new:
        with closing(Database(new, lambda: now)) as made, made.writing() as db:
            for source in sources:
                _take(source, db, merged)
        aside = _put_aside(database, now) if damaged else ""
    return replace(found, aside=aside, apart=merged.named("pieces", "apart") + merged.named("cards", "apart"))


def _take(source: Path, db: sqlite3.Connection, merged: Merged) -> None:
    with reading(source) as broken:
        for kept in salvage(broken):
            if isinstance(kept, KeptPiece):
                merge_piece(db, kept, merged)
            elif isinstance(kept, KeptCard):
                merge_card(db, kept, merged)
        for name, value in settings_that_read(broken).items():
            if rows.setting(db, name) is None:
                rows.set_setting(db, name, value)
        if not rows.bead_rows(db):
            for bead in beads_that_read(broken):
                rows.add_bead(db, bead)
            for gone in beads_taken_out_that_read(broken):
                rows.add_bead_taken_out(db, gone)


def _counted(db: sqlite3.Connection, name: str) -> Source:
    """How much can be read of that file."""
    pieces = events = cards = 0
    lost = []
    for kept in salvage(db):
        if isinstance(kept, Lost):
            lost.append(kept.words)
        elif isinstance(kept, KeptPiece):
            pieces, events = pieces + 1, events + len(kept.journal)
        else:
            cards += 1
    return Source(name, pieces, events, cards, tuple(lost))


def _newest_good_copy(database: Path) -> Path | None:
    """The newest sound copy, daily or from before a change of the tables, by the moment in its name."""
    folder = folder_of(database)
    if not folder.is_dir():
        return None
    for copy in sorted(folder.glob("tallycord-*.db"), key=lambda path: path.name, reverse=True):
        with reading(copy) as db:
            if is_whole(db):
                return copy
    return None


def _refuse_others(db: sqlite3.Connection, database: Path) -> None:
    """Refuse a file that opens without a fault but belongs to another program or a newer version: that is none to
    rescue."""
    try:
        check_ours(db, database)
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return  # it doesn't even open


def _put_aside(database: Path, now: datetime) -> str:
    """Give the broken file a dated name, which it has beside its own until the new file takes that."""
    aside = free_place(database.with_name(f"{database.stem}-damaged-{stamp(now)}.sqlite3"))
    os.link(database, aside)
    with suppress(FileNotFoundError):  # what the broken file would roll back is no business of the new one
        os.replace(f"{database}-journal", f"{aside}-journal")
    return aside.name
