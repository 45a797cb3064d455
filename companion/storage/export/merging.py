"""Taking pieces and cards in by who they are: what is new is added, what goes on from here is continued, what is behind
stays, and what has gone on differently is left alone and told. Nothing that is here is ever changed."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from typing import Any

from companion.core.gate.plan_document import from_document, to_document
from companion.core.journal.event_document import event_to_document
from companion.core.values.merge_result import Merged, Outcome
from companion.storage.export.document import WITHDRAWN, Dated, KeptCard, KeptPiece, KeptTest
from companion.storage.export.reading import card_entries, journal
from companion.storage.pieces import free_name


def merge_piece(db: sqlite3.Connection, kept: KeptPiece, merged: Merged) -> None:
    """Take one piece in, within the caller's transaction."""
    found = db.execute("SELECT id, name, design_digest, plan FROM piece WHERE uid = ?", (kept.uid,)).fetchone()
    if found is None:
        name = _add_piece(db, kept)
        merged.take("pieces", name, "added")
        if name != kept.name:
            merged.renamed[name] = kept.name
        return
    number, name, digest, plan = found
    here = journal(db, number)
    same_start = digest == kept.design_digest and _same_plan(plan, kept)
    outcome = _compared(here, kept.events) if same_start else "apart"
    if outcome == "continued":
        _add_events(db, number, kept.events, len(here))
        _summarise(db, number, kept)
    merged.take("pieces", name, outcome)


def _compared(here: Sequence[Any], there: Sequence[Any]) -> Outcome:
    shared = min(len(here), len(there))
    if list(here[:shared]) != list(there[:shared]):
        return "apart"
    if len(here) == len(there):
        return "same"
    return "continued" if len(here) < len(there) else "behind"


def _same_plan(text: str, kept: KeptPiece) -> bool:
    return bool(from_document(json.loads(text)) == kept.plan)


def _add_piece(db: sqlite3.Connection, kept: KeptPiece) -> str:
    taken = db.execute("SELECT 1 FROM piece WHERE name = ?", (kept.name,)).fetchone()
    name = free_name(db, kept.name) if taken else kept.name
    plan = json.dumps(to_document(kept.plan), separators=(",", ":"))
    started = kept.started_at.isoformat()
    values = (kept.uid, name, kept.design_name, kept.design_path, kept.design_digest, kept.design_text, plan, started)
    added = db.execute(
        "INSERT INTO piece (uid, name, design_name, design_path, design_digest, design_text, plan, started_at, "
        "touched_at, steps_done, steps_total, state, trouble) VALUES (?,?,?,?,?,?,?,?,?,0,0,'','')",
        (*values, started),
    )
    assert added.lastrowid is not None  # it is one, after an INSERT
    _add_events(db, added.lastrowid, kept.events, 0)
    _summarise(db, added.lastrowid, kept)
    return name


def _add_events(db: sqlite3.Connection, number: int, events: Sequence[Dated], after: int) -> None:
    rows = []
    for seq, (at, event) in enumerate(events[after:], start=after + 1):
        kind, values = event_to_document(event)
        rows.append((number, seq, at.isoformat(), kind, json.dumps(values, separators=(",", ":"))))
    db.executemany("INSERT INTO event VALUES (?, ?, ?, ?, ?)", rows)


def _summarise(db: sqlite3.Connection, number: int, kept: KeptPiece) -> None:
    piece, touched = kept.piece, kept.events[-1][0].isoformat()
    db.execute(
        "UPDATE piece SET touched_at = ?, steps_done = ?, steps_total = ?, state = ?, trouble = ? WHERE id = ?",
        (touched, piece.done, piece.total_steps, piece.state, kept.warning, number),
    )


def merge_card(db: sqlite3.Connection, kept: KeptCard, merged: Merged) -> None:
    """Take one card in, by its name, within the caller's transaction."""
    card = kept.card
    cord = (card.diameter_mm, card.layers, card.material, card.worked_with)
    found = db.execute(
        "SELECT id, name, diameter_mm, layers, material, worked_with FROM card WHERE name = ?", (card.name,)
    ).fetchone()
    if found is None:
        added = db.execute(
            "INSERT INTO card (name, diameter_mm, layers, material, worked_with, made_at) VALUES (?,?,?,?,?,?)",
            (card.name, *cord, kept.made_at.isoformat()),
        )
        assert added.lastrowid is not None  # it is one, after an INSERT
        _add_tests(db, added.lastrowid, kept.entries, 0)
        merged.take("cards", card.name, "added")
        return
    number, name, *cord_here = found
    here = card_entries(db, number)
    outcome = _compared(here, kept.entries) if tuple(cord_here) == cord else "apart"
    if outcome == "continued":
        _add_tests(db, number, kept.entries, len(here))
    merged.take("cards", name, outcome)


def _add_tests(db: sqlite3.Connection, number: int, entries: Sequence[KeptTest], after: int) -> None:
    rows = [_row(number, seq, entry) for seq, entry in enumerate(entries[after:], start=after + 1)]
    db.executemany("INSERT INTO card_test VALUES (?,?,?,?,?,?,?,?,?,?)", rows)


def _row(number: int, seq: int, entry: KeptTest) -> tuple[Any, ...]:
    test, at = entry.test, entry.at.isoformat()
    if test is None:
        return (number, seq, at, WITHDRAWN, 0, None, None, None, 0.0, "")
    some = test.row or test.touching
    assert some is not None  # a test has one of them
    before_after = (test.row.before_mm, test.row.after_mm) if test.row else (None, None)
    row_mm = test.touching.row_mm if test.touching else None
    return (number, seq, at, test.kind, some.knots, *before_after, row_mm, some.ruler_step_mm, test.typed)
