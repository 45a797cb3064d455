"""The changes of the database's tables, one after another. A change and its record are one transaction.

Only what SQLite has had since 3.12 (2016) is used, here and in the store, because Python may come with an old one.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable

APPLICATION_ID = 0x4B4E4F54  # "KNOT": marks the file as ours


PIECES = """CREATE TABLE piece (
    id INTEGER PRIMARY KEY,
    uid TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE,
    design_name TEXT NOT NULL,
    design_path TEXT NOT NULL,
    design_digest TEXT NOT NULL,
    design_text TEXT NOT NULL,
    plan TEXT NOT NULL,
    started_at TEXT NOT NULL,
    touched_at TEXT NOT NULL,
    steps_done INTEGER NOT NULL,
    steps_total INTEGER NOT NULL,
    state TEXT NOT NULL,
    trouble TEXT NOT NULL
)"""
EVENTS = """CREATE TABLE event (
    piece_id INTEGER NOT NULL REFERENCES piece (id),
    seq INTEGER NOT NULL,
    at TEXT NOT NULL,
    kind TEXT NOT NULL,
    data TEXT NOT NULL,
    PRIMARY KEY (piece_id, seq)
) WITHOUT ROWID"""
CARDS = """CREATE TABLE card (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE,
    diameter_mm REAL NOT NULL,
    layers INTEGER NOT NULL,
    material TEXT NOT NULL,
    worked_with TEXT NOT NULL,
    made_at TEXT NOT NULL
)"""
CARD_TESTS = """CREATE TABLE card_test (
    card_id INTEGER NOT NULL REFERENCES card (id),
    seq INTEGER NOT NULL,
    at TEXT NOT NULL,
    kind TEXT NOT NULL,
    knots INTEGER NOT NULL,
    before_mm REAL,
    after_mm REAL,
    row_mm REAL,
    ruler_step_mm REAL NOT NULL,
    typed TEXT NOT NULL,
    PRIMARY KEY (card_id, seq)
) WITHOUT ROWID"""
BEADS = """CREATE TABLE bead (
    id INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    name TEXT NOT NULL,
    length TEXT NOT NULL,
    diameter TEXT NOT NULL,
    hole TEXT NOT NULL,
    colour TEXT NOT NULL,
    shape TEXT NOT NULL,
    in_hand TEXT NOT NULL
)"""


BEADS_TAKEN_OUT = """CREATE TABLE bead_out (
    id INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    name TEXT NOT NULL,
    length TEXT NOT NULL,
    after INTEGER NOT NULL
)"""


def _only_added_to(db: sqlite3.Connection, table: str, why: str) -> None:
    """No row of that table is ever changed or deleted."""
    for verb in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER {table}_never_{verb.lower()}d BEFORE {verb} ON {table} "
            f"BEGIN SELECT RAISE(ABORT, '{why}'); END"
        )


def _pieces_and_events(db: sqlite3.Connection) -> None:
    db.execute(PIECES)
    db.execute(EVENTS)
    _only_added_to(db, "event", "the journal is only ever added to")
    db.execute("CREATE INDEX piece_by_touch ON piece (touched_at)")


def _cards(db: sqlite3.Connection) -> None:
    db.execute(CARDS)
    db.execute(CARD_TESTS)
    for table in ("card", "card_test"):
        _only_added_to(db, table, "cord cards are only ever added to")


def _settings(db: sqlite3.Connection) -> None:
    db.execute("CREATE TABLE setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID")


def _bead_box(db: sqlite3.Connection) -> None:
    db.execute(BEADS)
    _only_added_to(db, "bead", "the bead box is only ever added to")


def _beads_taken_out(db: sqlite3.Connection) -> None:
    db.execute(BEADS_TAKEN_OUT)
    _only_added_to(db, "bead_out", "the bead box is only ever added to")


CHANGES: tuple[Callable[[sqlite3.Connection], None], ...] = (
    _pieces_and_events,
    _cards,
    _settings,
    _bead_box,
    _beads_taken_out,
)


def migrate(db: sqlite3.Connection, keep: Callable[[int], object]) -> None:
    """Bring the database up to the newest tables. If the process is killed half-way, the old database is complete.

    `keep` is called with the version of a file that holds something, before it changes and while nobody can write to
    it. If it raises, the file stays as it was.
    """
    db.execute("BEGIN IMMEDIATE")
    try:
        (version,) = db.execute("PRAGMA user_version").fetchone()
        if 0 < version < len(CHANGES):
            keep(version)
        for number, change in enumerate(CHANGES[version:], start=version + 1):
            change(db)
            db.execute(f"PRAGMA user_version = {number}")
        db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        db.execute("COMMIT")
    except BaseException:
        db.rollback()
        raise
