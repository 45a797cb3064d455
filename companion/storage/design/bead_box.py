"""The bead box: every kind of bead that the maker has typed, offered for the next design. It is only added to: of
beads of one name and length the one typed last stands."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import closing
from datetime import datetime

from msgspec.structs import replace

from companion.core.draft.draft import MOST_TEXT, BeadDraft
from companion.core.values.text import plain
from companion.storage import rows
from companion.storage.database import Database, check_ours
from companion.storage.database_copy import read_connection
from companion.storage.kept import BeadRow
from companion.storage.sentences import errors_as_sentences


def read_beads(database: Database) -> tuple[BeadDraft, ...]:
    """All beads in the box, without letters, the one typed last first. Raises WorkshopError."""
    if not database.is_there():
        return ()
    with errors_as_sentences(database.path), closing(read_connection(database.path)) as db:
        check_ours(db, database.path)
        return tuple(map(_bead, reversed(_standing(rows.bead_rows(db)).values())))


def put_beads(database: Database, beads: Iterable[BeadDraft], at: datetime) -> None:
    """Put beads in the box, or what is new of them; those that lie there as they are stay so. Raises NotStored."""
    with database.writing() as db:
        there = _standing(rows.bead_rows(db))
        for bead in beads:
            row = _row(bead, at)
            before = there.get(_kind(row))
            if before and not row.in_hand:
                row = replace(row, in_hand=before.in_hand)
            if row.name and row.length and (before is None or replace(before, at=at) != row):
                rows.add_bead(db, row)


def _standing(found: Iterable[BeadRow]) -> dict[tuple[str, str], BeadRow]:
    """Of each kind the latest, in the order in which they were last typed."""
    beads: dict[tuple[str, str], BeadRow] = {}
    for row in found:
        beads.pop(_kind(row), None)
        beads[_kind(row)] = row
    return beads


def _kind(row: BeadRow) -> tuple[str, str]:
    return row.name.casefold(), row.length


def _row(bead: BeadDraft, at: datetime) -> BeadRow:
    texts = (bead.name, bead.length, bead.diameter, bead.hole, bead.colour, bead.shape, bead.in_hand)
    return BeadRow(at, *(plain(text.strip(), MOST_TEXT) for text in texts))


def _bead(row: BeadRow) -> BeadDraft:
    texts = (row.name, row.length, row.diameter, row.hole, row.colour, row.shape, row.in_hand)
    return BeadDraft("", "", *(plain(text, MOST_TEXT) for text in texts))
