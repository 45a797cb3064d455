"""The bead box: every kind of bead that the maker has typed, offered for the next design. It is only added to: of
beads of one name and length the one typed last stands, and what is taken out is noted."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from datetime import datetime

from msgspec.structs import replace

from companion.core.draft.draft import MOST_TEXT, BeadDraft
from companion.core.values.text import plain
from companion.storage import rows
from companion.storage.database import Database, check_ours
from companion.storage.database_copy import read_connection
from companion.storage.kept import BeadRow, BeadTakenOut, KeptBead
from companion.storage.sentences import errors_as_sentences

Kind = tuple[str, str]


def read_beads(database: Database) -> tuple[BeadDraft, ...]:
    """All beads in the box, without letters, the one typed last first. Raises WorkshopError."""
    if not database.is_there():
        return ()
    with errors_as_sentences(database.path), closing(read_connection(database.path)) as db:
        check_ours(db, database.path)
        standing = [kept.bead for kept in beads_as_they_stand(db).values() if not kept.taken_out]
        return tuple(map(_bead, reversed(standing)))


def put_beads(database: Database, beads: Iterable[BeadDraft], at: datetime) -> None:
    """Put beads in the box, or what is new of them; those that lie there as they are stay so. Raises NotStored."""
    with database.writing() as db:
        there = beads_as_they_stand(db)
        for bead in beads:
            row = _row(bead, at)
            kept = there.get(kind_of(row))
            before = kept.bead if kept and not kept.taken_out else None
            if before and not row.in_hand:
                row = replace(row, in_hand=before.in_hand)
            if row.name and row.length and (before is None or replace(before, at=at) != row):
                rows.add_bead(db, row)


def take_out_bead(database: Database, bead: BeadDraft, at: datetime) -> None:
    """Take a bead out of the box; designs that have it keep it. Raises NotStored."""
    with database.writing() as db:
        row = _row(bead, at)
        kept = beads_as_they_stand(db).get(kind_of(row))
        if kept is not None and not kept.taken_out:
            take_bead_out(db, replace(kept.bead, at=at))


def _row(bead: BeadDraft, at: datetime) -> BeadRow:
    texts = (bead.name, bead.length, bead.diameter, bead.hole, bead.colour, bead.shape, bead.in_hand)
    return BeadRow(at, *(plain(text.strip(), MOST_TEXT) for text in texts))


def _bead(row: BeadRow) -> BeadDraft:
    texts = (row.name, row.length, row.diameter, row.hole, row.colour, row.shape, row.in_hand)
    return BeadDraft("", "", *(plain(text, MOST_TEXT) for text in texts))


# -- which beads stand -------------------------------------------------------------------------------------------------


def kind_of(bead: BeadRow | BeadTakenOut) -> Kind:
    """What a bead is known by."""
    return bead.name.casefold(), bead.length


def beads_as_they_stand(db: sqlite3.Connection) -> dict[Kind, KeptBead]:
    """Of each kind the latest, in the order in which they were last typed; those taken out too."""
    out = {kind_of(one): one for one in rows.beads_taken_out(db)}
    beads: dict[Kind, KeptBead] = {}
    for number, row in zip(rows.bead_numbers(db), rows.bead_rows(db), strict=True):
        kind = kind_of(row)
        beads.pop(kind, None)
        gone = out.get(kind)
        is_out = gone is not None and gone.after >= number
        beads[kind] = KeptBead(replace(row, at=gone.at), True) if gone and is_out else KeptBead(row)
    return beads


def take_bead_out(db: sqlite3.Connection, bead: BeadRow) -> None:
    """That kind is in the box no longer, from `bead.at` on."""
    numbers = rows.bead_numbers(db)
    rows.add_bead_taken_out(db, BeadTakenOut(bead.at, bead.name, bead.length, numbers[-1] if numbers else 0))
