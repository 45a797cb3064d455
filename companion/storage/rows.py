"""The rows of the file of pieces: the only place that knows its tables and columns.

Every function takes an open connection. Those that write must be called within a transaction. A row that this program
cannot have written raises ValueError.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from datetime import datetime
from functools import cache, partial
from typing import Any, Literal

from msgspec.json import decode as from_json
from msgspec.json import encode
from msgspec.structs import astuple

from companion.core.gate.plan_document import from_document, to_document
from companion.core.journal.event_document import event_from_document, event_to_document
from companion.core.journal.events import Event
from companion.core.journal.fold import fold
from companion.core.journal.names import alike
from companion.core.plan.plan import Plan
from companion.core.values.plain_values import Misshapen, Reader, field_names, row_reader
from companion.core.values.text import plain
from companion.storage.kept import (
    BeadRow,
    BeadTakenOut,
    CardEntry,
    CardRow,
    DatedEvent,
    DesignCopy,
    KeptPiece,
    PieceRow,
    Summary,
)

PLAN_HEAD = 20_000  # characters of a plan that hold its name, note and size
SIZE_KEY = ',"size":'  # no text of a plan can hold it: quotation marks within one are written with a backslash
MOST_SIZE = 40

# -- how values are kept ----------------------------------------------------------------------------------------------


def moment(value: Any) -> datetime:
    """A moment from its stored form, ISO 8601. Raises ValueError."""
    return datetime.fromisoformat(_text(value))


def _text(value: Any) -> str:
    if type(value) is not str:
        raise Misshapen("text is expected")
    return value


@cache
def _reader(kind: Any) -> Reader:
    """A reader for rows of that kind. Text may hold anything: a file's path does."""
    return row_reader(kind, {datetime: moment, str: _text})


def _columns(kind: type[Any]) -> str:
    return ", ".join("trouble" if name == "warning" else name for name in field_names(kind))


SUMMARY_COLUMNS = ("touched_at", *_columns(Summary).split(", "))
SUMMARISE = f"UPDATE piece SET {' = ?, '.join(SUMMARY_COLUMNS)} = ? WHERE id = ?"


def _rows(db: sqlite3.Connection, kind: Any, rest: str, values: Sequence[Any] = ()) -> Iterator[Any]:
    return map(_reader(kind), db.execute(f"SELECT {_columns(kind)} FROM {rest}", values))


def _insert(db: sqlite3.Connection, table: str, values: dict[str, Any]) -> int:
    """The number of the new row."""
    places = ", ".join("?" * len(values))
    added = db.execute(f"INSERT INTO {table} ({', '.join(values)}) VALUES ({places})", tuple(values.values()))
    assert added.lastrowid is not None  # it is one, after an INSERT
    return added.lastrowid


def _json(value: Any) -> str:
    return encode(value).decode()


# -- pieces -----------------------------------------------------------------------------------------------------------


def piece_rows(db: sqlite3.Connection) -> tuple[PieceRow, ...]:
    """Every piece, the most recently touched first."""
    return tuple(_rows(db, PieceRow, "piece ORDER BY touched_at DESC, id DESC"))


def piece_numbers(db: sqlite3.Connection) -> list[int]:
    """The database's own number of every piece, in the order they were begun."""
    return [number for (number,) in db.execute("SELECT id FROM piece ORDER BY id")]


def numbers_that_read(db: sqlite3.Connection) -> list[int]:
    """The same for a broken file, trying every way in which SQLite may still find a number."""
    found: set[int] = set()
    for statement in (
        "SELECT id FROM piece ORDER BY id",
        "SELECT id FROM piece ORDER BY id DESC",
        "SELECT id FROM piece INDEXED BY piece_by_touch",
        "SELECT DISTINCT piece_id FROM event",
    ):
        with suppress(sqlite3.DatabaseError, UnicodeDecodeError):
            found.update(number for (number,) in db.execute(statement) if isinstance(number, int))
    return sorted(found)


def number_of(db: sqlite3.Connection, uid: str) -> int | None:
    """The number that a piece has here, by its identity, which is the same everywhere; None if it is not here."""
    found = db.execute("SELECT id FROM piece WHERE uid = ?", (uid,)).fetchone()
    return found and int(found[0])


def piece_name(db: sqlite3.Connection, number: int) -> str:
    """The name of a piece."""
    return _text(db.execute("SELECT name FROM piece WHERE id = ?", (number,)).fetchone()[0])


def names_taken(db: sqlite3.Connection, apart_from: int | None = None) -> dict[str, str]:
    """The names of all pieces except that one, in the form that all alike names share."""
    found = db.execute("SELECT id, name FROM piece")
    return {alike(name): _text(name) for number, name in found if number != apart_from}


def rename(db: sqlite3.Connection, number: int, name: str) -> None:
    """Give a piece another name."""
    db.execute("UPDATE piece SET name = ? WHERE id = ?", (name, number))


def sizes(db: sqlite3.Connection, after: int) -> dict[int, str]:
    """The size of each piece with a number beyond `after`, as its maker wrote it; "" if it has none.

    A plan is long, and its size stands near its beginning. Only that part is read, however many pieces there are.
    """
    found = db.execute("SELECT id, substr(plan, 1, ?) FROM piece WHERE id > ?", (PLAN_HEAD, after))
    return {number: _size(str(head)) for number, head in found}


def _size(plan_head: str) -> str:
    with suppress(ValueError, TypeError, KeyError):
        begin = plan_head.index(SIZE_KEY) + len(SIZE_KEY)
        end = plan_head.index("}", begin) + 1  # a size holds no map, and no length a brace
        return plain(_text(from_json(plan_head[begin:end])["typed"]), MOST_SIZE)
    return ""


def design_text(db: sqlite3.Connection, number: int) -> str:
    """The design file of a piece, as it was when the piece began."""
    return _text(db.execute("SELECT design_text FROM piece WHERE id = ?", (number,)).fetchone()[0])


def plan_of(db: sqlite3.Connection, number: int) -> Plan:
    """The plan that a piece was begun with."""
    (text,) = db.execute("SELECT plan FROM piece WHERE id = ?", (number,)).fetchone()
    return from_document(from_json(_text(text)))


def kept_piece(db: sqlite3.Connection, number: int, journal: tuple[DatedEvent, ...]) -> KeptPiece:
    """Everything that is stored of a piece, with these events of its journal."""
    (*texts, started_at, warning) = db.execute(
        "SELECT uid, name, design_name, design_path, design_digest, design_text, started_at, trouble "
        "FROM piece WHERE id = ?",
        (number,),
    ).fetchone()
    uid, name, *design = map(_text, texts)
    summary = Summary.of(fold(line.event for line in journal), _text(warning))
    return KeptPiece(uid, name, DesignCopy(*design), plan_of(db, number), moment(started_at), journal, summary)


def add_piece(db: sqlite3.Connection, kept: KeptPiece) -> int:
    """Add a new piece with its journal; gives its number here."""
    design = {f"design_{name}": getattr(kept.design, name) for name in field_names(DesignCopy)}
    first = {"uid": kept.uid, "name": kept.name, **design, "plan": _json(to_document(kept.plan))}
    number = _insert(
        db,
        "piece",
        {**first, "started_at": kept.started_at.isoformat()}
        | dict(zip(SUMMARY_COLUMNS, _summarised(kept.journal, kept.summary), strict=True)),
    )
    _add_events(db, number, kept.journal, 0)
    return number


def _summarised(journal: Sequence[DatedEvent], summary: Summary) -> tuple[Any, ...]:
    """The values of SUMMARY_COLUMNS."""
    return journal[-1].at.isoformat(), *astuple(summary)


def warning_of(db: sqlite3.Connection, number: int) -> str:
    """The short warning of a piece, one or two words."""
    return _text(db.execute("SELECT trouble FROM piece WHERE id = ?", (number,)).fetchone()[0])


# -- journals ---------------------------------------------------------------------------------------------------------


def set_warning(db: sqlite3.Connection, number: int, word: str) -> None:
    """Set the short warning that a piece shows on the bench."""
    db.execute("UPDATE piece SET trouble = ? WHERE id = ?", (word, number))


def last_event(db: sqlite3.Connection, number: int) -> int:
    """The number of the latest event of a piece."""
    return int(db.execute("SELECT max(seq) FROM event WHERE piece_id = ?", (number,)).fetchone()[0])


def count_events(db: sqlite3.Connection) -> int:
    """How many events there are, of all pieces together."""
    return int(db.execute("SELECT count(*) FROM event").fetchone()[0])


def journal(db: sqlite3.Connection, number: int, after: int = 0) -> Iterator[DatedEvent]:
    """The events of a piece after number `after`, in order. Raises at the first that cannot be read or is missing."""
    found = db.execute(
        "SELECT seq, at, kind, data FROM event WHERE piece_id = ? AND seq > ? ORDER BY seq", (number, after)
    )
    for expected, (seq, at, kind, data) in enumerate(found, start=after + 1):
        if seq != expected:
            raise Misshapen(f"event {expected} is missing")
        yield DatedEvent(moment(at), _event(kind, data))


def add_events(db: sqlite3.Connection, number: int, events: Sequence[DatedEvent], after: int, summary: Summary) -> None:
    """Add events after number `after` to a piece's journal, and what the bench then shows of the piece."""
    _add_events(db, number, events, after)
    db.execute(SUMMARISE, (*_summarised(events, summary), number))


def _add_events(db: sqlite3.Connection, number: int, events: Sequence[DatedEvent], after: int) -> None:
    written = [(line.at.isoformat(), *event_to_document(line.event)) for line in events]
    rows = [(number, seq, at, kind, _json(data)) for seq, (at, kind, data) in enumerate(written, start=after + 1)]
    db.executemany("INSERT INTO event VALUES (?, ?, ?, ?, ?)", rows)


def finishes(db: sqlite3.Connection) -> Iterator[tuple[str, Callable[[], Event]]]:
    """The name of every finished piece with the event that finished it, in the order they were begun. The piece may
    have been renamed since, or its end undone and redone."""
    found = db.execute(
        "SELECT name, kind, data FROM piece JOIN event ON piece_id = id AND seq = "
        "(SELECT max(seq) FROM event WHERE piece_id = id AND kind = 'finished') WHERE state = 'finished' ORDER BY id"
    )
    return ((_text(name), partial(_event, kind, data)) for name, kind, data in found)


def _event(kind: Any, data: Any) -> Event:
    return event_from_document(_text(kind), from_json(_text(data)))


# -- cord cards -------------------------------------------------------------------------------------------------------


def card_rows(db: sqlite3.Connection, order: Literal["name", "id"]) -> tuple[CardRow, ...]:
    """Every card, by name or in the order they were made."""
    return tuple(_rows(db, CardRow, f"card ORDER BY {order}"))


def card_named(db: sqlite3.Connection, name: str) -> CardRow | None:
    """The card of that name, in upper or lower case; None if there is none."""
    return next(_rows(db, CardRow, "card WHERE name = ?", (name,)), None)


def add_card(db: sqlite3.Connection, row: CardRow) -> int:
    """Add a card without entries, whatever number `row` has; gives its number."""
    values = {name: getattr(row, name) for name in field_names(CardRow)}
    return _insert(db, "card", {**values, "id": None, "made_at": row.made_at.isoformat()})


def card_entries(db: sqlite3.Connection, number: int) -> tuple[CardEntry, ...]:
    """The entries of a card, in order."""
    return tuple(_rows(db, CardEntry, "card_test WHERE card_id = ? ORDER BY seq", (number,)))


def add_entries(db: sqlite3.Connection, number: int, entries: Sequence[CardEntry], after: int) -> None:
    """Add entries after number `after` to a card."""
    for seq, entry in enumerate(entries, start=after + 1):
        values = {name: getattr(entry, name) for name in field_names(CardEntry)}
        _insert(db, "card_test", {"card_id": number, "seq": seq, **values, "at": entry.at.isoformat()})


# -- the bead box -----------------------------------------------------------------------------------------------------


def bead_rows(db: sqlite3.Connection) -> tuple[BeadRow, ...]:
    """All that was ever put in the bead box, in that order; nothing in a file of an older shape."""
    if not _has_table(db, "bead"):
        return ()
    return tuple(_rows(db, BeadRow, "bead ORDER BY id"))


def bead_numbers(db: sqlite3.Connection) -> list[int]:
    """The database's own numbers of those, in the same order."""
    if not _has_table(db, "bead"):
        return []
    return [number for (number,) in db.execute("SELECT id FROM bead ORDER BY id")]


def beads_taken_out(db: sqlite3.Connection) -> tuple[BeadTakenOut, ...]:
    """All that was ever taken out, in that order; nothing in a file of an older shape."""
    if not _has_table(db, "bead_out"):
        return ()
    return tuple(_rows(db, BeadTakenOut, "bead_out ORDER BY id"))


def add_bead_taken_out(db: sqlite3.Connection, row: BeadTakenOut) -> None:
    """A kind of bead is in the box no longer."""
    values = {name: getattr(row, name) for name in field_names(BeadTakenOut)}
    _insert(db, "bead_out", {**values, "at": row.at.isoformat()})


def add_bead(db: sqlite3.Connection, row: BeadRow) -> None:
    """A bead as it is from now on."""
    values = {name: getattr(row, name) for name in field_names(BeadRow)}
    _insert(db, "bead", {**values, "at": row.at.isoformat()})


# -- settings ---------------------------------------------------------------------------------------------------------


def setting(db: sqlite3.Connection, name: str) -> Any:
    """What the maker has set under that name, as a plain value; None if nothing is set, or if the file has older
    tables."""
    if not _has_table(db, "setting"):
        return None
    found = db.execute("SELECT value FROM setting WHERE name = ?", (name,)).fetchone()
    return None if found is None else from_json(_text(found[0]))


def settings(db: sqlite3.Connection) -> dict[str, Any]:
    """All that the maker has set; nothing if the file has older tables."""
    if not _has_table(db, "setting"):
        return {}
    return {_text(name): from_json(_text(value)) for name, value in db.execute("SELECT name, value FROM setting")}


def set_setting(db: sqlite3.Connection, name: str, value: Any) -> None:
    """Store it as the value from now on."""
    db.execute("INSERT OR REPLACE INTO setting (name, value) VALUES (?, ?)", (name, _json(value)))


def _has_table(db: sqlite3.Connection, name: str) -> bool:
    """Whether the file has that table; one of an older shape may not."""
    return db.execute("SELECT 1 FROM sqlite_master WHERE name = ?", (name,)).fetchone() is not None
