"""Writing an export, piece by piece: to a new file that gets its name only once it is complete, or to any stream."""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from companion.core.values.errors import NotStored, WorkshopError
from companion.core.values.text import plain
from companion.storage import rows
from companion.storage.design.bead_box import beads_as_they_stand
from companion.storage.export.document import FORMAT, KIND, bead_document, card_document, piece_document
from companion.storage.files import written_whole
from companion.storage.kept import KeptCard
from companion.storage.sentences import reason


def export_lines(db: sqlite3.Connection | None, at: datetime) -> Iterator[str]:
    """The export, one line for each card, piece and bead. Without a database it is the export of nothing.

    Raises WorkshopError if a piece or card cannot be read.
    """
    yield f'{{"format": {FORMAT}, "kind": "{KIND}", "made_at": "{at.isoformat()}",'
    yield '"cards": ['
    if db is not None:
        cards = (KeptCard(card, rows.card_entries(db, card.id)) for card in rows.card_rows(db, "id"))
        yield from _separated(_text(card_document(card)) for card in cards)
    yield '], "pieces": ['
    if db is not None:
        yield from _separated(_piece_text(db, number) for number in rows.piece_numbers(db))
    beads = beads_as_they_stand(db).values() if db is not None else ()
    if beads:
        yield '], "beads": ['
        yield from _separated(_text(bead_document(kept)) for kept in beads)
    yield "]}"


def _piece_text(db: sqlite3.Connection, number: int) -> str:
    db.execute("BEGIN")  # a piece with its journal, as both were at one moment
    try:
        kept = rows.kept_piece(db, number, tuple(rows.journal(db, number)))
    except ValueError as error:
        name = plain(rows.piece_name(db, number))
        raise WorkshopError(f"The piece {name} can't be read whole, so nothing was exported: {error}.") from error
    finally:
        db.execute("COMMIT")
    return _text(piece_document(kept))


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=True, separators=(",", ":"), allow_nan=False)


def _separated(texts: Iterator[str]) -> Iterator[str]:
    """All lines, with a comma after each but the last: one is held back at a time."""
    last: str | None = None
    for text in texts:
        if last is not None:
            yield last + ","
        last = text
    if last is not None:
        yield last


def write_new(place: Path, lines: Iterator[str], over: bool = False) -> None:
    """Write a file that only its owner may read, completely or not at all. Raises NotStored if it exists already
    (unless `over`) or cannot be written."""
    with _new_file(place, over) as new, new.open("w", encoding="utf-8") as file:
        file.writelines(line + "\n" for line in lines)


def write_new_copy(place: Path, data: bytes, over: bool = False) -> None:
    """Write a new file that holds exactly these bytes, whole or not at all. Raises as `write_new` does."""
    with _new_file(place, over) as new:
        new.write_bytes(data)


@contextmanager
def _new_file(place: Path, over: bool) -> Iterator[Path]:
    shown = plain(str(place))
    if not over and os.path.lexists(place):
        raise NotStored(f"{shown} is there already: nothing was saved. Give another name, or --force.")
    try:
        with written_whole(place, over) as new:
            yield new
    except OSError as error:
        raise NotStored(f"{shown} can't be written: {reason(error)}. Nothing was saved.") from error
