"""The store of pieces: each with its design, its compiled plan and its journal of events, which is only added to."""

from __future__ import annotations

import json
import re
import sqlite3
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from companion.core.gate.plan_document import from_document, to_document
from companion.core.gate.shapes import misshapen
from companion.core.journal.event_document import event_from_document, event_to_document
from companion.core.journal.events import Event
from companion.core.plan.plan import Plan
from companion.core.values.errors import NoSuchPiece, NotADatabase, NotStored, Stale
from companion.core.values.text import join_words, plain
from companion.storage.database import BUSY_SECONDS, damaged, open_database, reason, sentences, transaction, utc_now

MOST_NAME = 40


@dataclass(frozen=True, slots=True)
class DatedEvent:
    """One line of a journal."""

    seq: int
    at: datetime
    event: Event


@dataclass(frozen=True, slots=True)
class Summary:
    """What the bench shows of a piece, kept with it in the same transaction as each event."""

    steps_done: int
    steps_total: int
    state: str
    warning: str


@dataclass(frozen=True, slots=True)
class PieceRow:
    """One piece on the bench. `name`: what commands take; `warning`: "", or a word or two of warning."""

    id: int
    name: str
    design_name: str
    design_path: str
    design_digest: str
    started_at: datetime
    touched_at: datetime
    steps_done: int
    steps_total: int
    state: str
    warning: str


_COLUMNS = (
    "id, name, design_name, design_path, design_digest, started_at, touched_at, steps_done, steps_total, state, trouble"
)


_COUNTS = (0, 7, 8)  # which of them are numbers


class Store:
    """All pieces in one database file. Opened on first need; made on first write."""

    def __init__(self, path: Path, new_uid: Callable[[], str], now: Callable[[], datetime] = utc_now) -> None:
        self.path = path
        self._new_uid = new_uid
        self.now = now
        self._db: sqlite3.Connection | None = None
        self._busy_seconds = BUSY_SECONDS

    def wait_at_most(self, seconds: float) -> None:
        """How long to wait from now on for a file that another program holds."""
        self._busy_seconds = seconds
        if self._db is not None:
            self._db.execute(f"PRAGMA busy_timeout = {seconds * 1000:.0f}")

    def close(self) -> None:
        """Let the file go."""
        if self._db is not None:
            self._db.close()
            self._db = None

    def _open(self) -> sqlite3.Connection:
        if self._db is None:
            self._db = open_database(self.path, self._busy_seconds, self.now)
        return self._db

    @property
    def has_written(self) -> bool:
        """Whether anything was written through here since it was opened."""
        return self._db is not None and self._db.total_changes > 0

    def is_there(self) -> bool:
        """Whether there is a file yet. Raises NotStored where that can't be told."""
        try:
            return self._db is not None or self.path.exists()
        except OSError as error:
            raise NotStored(
                f"The file of pieces can't be reached: {plain(str(self.path))}: {reason(error)}."
            ) from error

    def rows(self) -> tuple[PieceRow, ...]:
        """Every piece, the latest touched first."""
        if not self.is_there():
            return ()
        with sentences(self.path):
            found = self._open().execute(f"SELECT {_COLUMNS} FROM piece ORDER BY touched_at DESC, id DESC")
            try:
                return tuple(_row(values) for values in found)
            except (ValueError, TypeError) as error:  # it opens, and holds what nobody wrote
                raise NotADatabase(damaged(self.path)) from error

    def row(self, name: str) -> PieceRow:
        """The piece of that name, or the only one whose name begins so. Raises NoSuchPiece."""
        wanted = name.strip().lower()
        rows = self.rows()
        exact = [row for row in rows if row.name.lower() == wanted]
        begins = exact or [row for row in rows if wanted and row.name.lower().startswith(wanted)]
        if len(begins) == 1:
            return begins[0]
        if begins:
            names = join_words([row.name for row in begins[:6]])
            raise NoSuchPiece(f"Several pieces begin with {plain(name)}: {names}. Write more of the name.")
        raise NoSuchPiece(f"There is no piece named {plain(name)}. `companion pieces` lists them.")

    def add(
        self, plan: Plan, path: str, digest: str, text: str, events: Sequence[Event], at: datetime, summary: Summary
    ) -> PieceRow:
        """A new piece with its first events, in one transaction."""
        db = self._open()
        document = json.dumps(to_document(plan), separators=(",", ":"))
        with sentences(self.path), transaction(db):
            name = free_name(db, plan.design)
            values = (self._new_uid(), name, plan.design, path, digest, text, document, at.isoformat(), at.isoformat())
            added = db.execute(
                "INSERT INTO piece (uid, name, design_name, design_path, design_digest, design_text, plan, started_at, "
                "touched_at, steps_done, steps_total, state, trouble) VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?)",
                (*values, summary.steps_done, summary.steps_total, summary.state, summary.warning),
            )
            assert added.lastrowid is not None  # it is one, after an INSERT
            for seq, event in enumerate(events, start=1):
                _insert(db, added.lastrowid, seq, event, at)
        return self.row(name)

    def append(self, piece_id: int, seq: int, event: Event, at: datetime, summary: Summary) -> None:
        """Add event number `seq` to a journal: on disk when this returns.

        Raises Stale where the journal has that many already (someone else wrote); nothing is written then.
        """
        db = self._open()
        with sentences(self.path), transaction(db):
            (last,) = db.execute("SELECT max(seq) FROM event WHERE piece_id = ?", (piece_id,)).fetchone()
            if last != seq - 1:
                raise Stale("The piece has moved on since: nothing was written.")
            _insert(db, piece_id, seq, event, at)
            db.execute(
                "UPDATE piece SET touched_at = ?, steps_done = ?, steps_total = ?, state = ?, trouble = ? WHERE id = ?",
                (at.isoformat(), summary.steps_done, summary.steps_total, summary.state, summary.warning, piece_id),
            )

    def plan(self, piece_id: int) -> Plan:
        """The piece's own copy of its compiled plan. Raises NotADatabase where it can't be read."""
        with sentences(self.path):
            (text,) = self._open().execute("SELECT plan FROM piece WHERE id = ?", (piece_id,)).fetchone()
        try:
            return from_document(json.loads(text))
        except (ValueError, TypeError) as error:
            raise NotADatabase(f"The plan kept with this piece can't be read: {plain(str(error))}.") from error

    def journal(self, piece_id: int, after: int = 0) -> tuple[DatedEvent, ...]:
        """The events of a piece beyond number `after`, in order. Raises NotADatabase for one that can't be read."""
        with sentences(self.path):
            found = self._open().execute(
                "SELECT seq, at, kind, data FROM event WHERE piece_id = ? AND seq > ? ORDER BY seq", (piece_id, after)
            )
            rows = found.fetchall()
        try:
            return tuple(
                DatedEvent(seq, datetime.fromisoformat(at), _event(kind, data)) for seq, at, kind, data in rows
            )
        except (ValueError, TypeError, AttributeError) as error:
            raise NotADatabase(f"The journal of this piece can't be read: {plain(str(error))}.") from error

    def warning(self, piece_id: int) -> str:
        """The piece's word or two of warning, as it stands on the bench."""
        with sentences(self.path):
            (word,) = self._open().execute("SELECT trouble FROM piece WHERE id = ?", (piece_id,)).fetchone()
        return str(word)

    def set_warning(self, piece_id: int, seq: int, word: str) -> None:
        """That word of warning for the bench, as long as event number `seq` is the piece's latest."""
        db = self._open()
        with sentences(self.path), transaction(db):
            latest = "(SELECT max(seq) FROM event WHERE piece_id = piece.id)"
            db.execute(f"UPDATE piece SET trouble = ? WHERE id = ? AND {latest} = ?", (word, piece_id, seq))

    def version(self) -> int:
        """A number that is another one once another connection has written; what is written here leaves it. Cheap."""
        with sentences(self.path):
            (version,) = self._open().execute("PRAGMA data_version").fetchone()
        return int(version)


def _insert(db: sqlite3.Connection, piece_id: int, seq: int, event: Event, at: datetime) -> None:
    kind, values = event_to_document(event)
    data = json.dumps(values, separators=(",", ":"))
    db.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", (piece_id, seq, at.isoformat(), kind, data))


def _event(kind: str, data: str) -> Event:
    event = event_from_document(kind, json.loads(data))
    wrong = misshapen(event, type(event))
    if wrong:
        raise ValueError(wrong)
    return event


def _row(values: Sequence[Any]) -> PieceRow:
    whole = list(values)
    whole[5:7] = (datetime.fromisoformat(at) for at in whole[5:7])
    kinds = {type(value) for place, value in enumerate(whole) if place not in _COUNTS}
    if kinds != {str, datetime} or not all(type(whole[place]) is int for place in _COUNTS):
        raise ValueError("a piece that can't be")
    return PieceRow(*whole)


def free_name(db: sqlite3.Connection, design: str) -> str:
    """A name for a new piece that is easy to type: "skerry-bracelet", and "skerry-bracelet-2" for the next."""
    ascii_text = unicodedata.normalize("NFKD", design).encode("ascii", "ignore").decode()
    slug = re.sub(r"[^a-z0-9]+", "-", ascii_text.lower()).strip("-")[:MOST_NAME].strip("-") or "piece"
    taken = {name for (name,) in db.execute("SELECT lower(name) FROM piece")}
    number = 1
    name = slug
    while name in taken:
        number += 1
        name = f"{slug}-{number}"
    return name
