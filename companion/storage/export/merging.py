"""Merging pieces, cards and beads of an export into those that are here, matched by who they are. What is new is added,
what goes further than here is continued, what is behind stays as it is here, and what has gone on differently is left
alone and reported. Nothing that is here is ever changed."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from msgspec.structs import replace

from companion.core.journal.fold import fold
from companion.core.journal.names import alike, free_name, name_after_all
from companion.core.values.merge_result import Merged, Outcome
from companion.storage import rows
from companion.storage.design.bead_box import beads_as_they_stand, kind_of, take_bead_out
from companion.storage.kept import KeptBead, KeptCard, KeptPiece


def merge_piece(db: sqlite3.Connection, kept: KeptPiece, merged: Merged) -> None:
    """Merge one piece, within the caller's transaction."""
    number = rows.number_of(db, kept.uid)
    if number is None:
        taken = rows.names_taken(db)
        name = free_name(kept.name, taken) if alike(kept.name) in taken else kept.name
        rows.add_piece(db, replace(kept, name=name))
        merged.take("pieces", name, "added")
        if name != kept.name:
            merged.renamed[name] = kept.name
        return
    here = rows.kept_piece(db, number, tuple(rows.journal(db, number)))
    same_start = (here.design.digest, here.plan) == (kept.design.digest, kept.plan)
    outcome = _compared(here.journal, kept.journal) if same_start else "apart"
    if outcome == "continued":
        known = len(here.journal)
        rows.add_events(db, number, kept.journal[known:], known, kept.summary)
        here = replace(here, name=_renamed(db, number, here, kept, merged))
    merged.take("pieces", here.name, outcome)


def _renamed(db: sqlite3.Connection, number: int, here: KeptPiece, kept: KeptPiece, merged: Merged) -> str:
    """The name of a piece that was continued: the one it was given there, unless another piece here has it."""
    known = len(here.journal)
    piece = fold(line.event for line in here.journal)
    name = name_after_all(here.name, piece, (line.event for line in kept.journal[known:]))
    if name == here.name:
        return name
    if alike(name) in rows.names_taken(db, apart_from=number):
        merged.renamed[here.name] = name
        return here.name
    rows.rename(db, number, name)
    return name


def merge_card(db: sqlite3.Connection, kept: KeptCard, merged: Merged) -> None:
    """Merge one card, matched by its name, within the caller's transaction."""
    found = rows.card_named(db, kept.card.name)
    if found is None:
        rows.add_entries(db, rows.add_card(db, kept.card), kept.entries, 0)
        merged.take("cards", kept.card.name, "added")
        return
    here = rows.card_entries(db, found.id)
    same_cord = replace(kept.card, id=found.id, name=found.name, made_at=found.made_at) == found
    outcome = _compared(here, kept.entries) if same_cord else "apart"
    if outcome == "continued":
        rows.add_entries(db, found.id, kept.entries[len(here) :], len(here))
    merged.take("cards", found.name, outcome)


def merge_bead(db: sqlite3.Connection, kept: KeptBead, merged: Merged) -> None:
    """Merge one bead of the box, matched by its name and length, within the caller's transaction: the newer of the two
    stands, whether it was typed or taken out."""
    there, name = kept.bead, f"{kept.bead.name} {kept.bead.length}"
    here = beads_as_they_stand(db).get(kind_of(there))
    if here is not None and here.bead.at >= there.at:
        merged.take("beads", name, "same" if here == kept else "behind")
        return
    if not (kept.taken_out and here):
        rows.add_bead(db, there)
    if kept.taken_out:
        take_bead_out(db, there)
    merged.take("beads", name, "added" if here is None else "continued")


def _compared(here: Sequence[Any], there: Sequence[Any]) -> Outcome:
    shared = min(len(here), len(there))
    if list(here[:shared]) != list(there[:shared]):
        return "apart"
    if len(here) == len(there):
        return "same"
    return "continued" if len(here) < len(there) else "behind"
