"""Writing an export: piece by piece, to a new file that has its name only once it is whole, or to any stream."""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from companion.core.values.errors import NotStored, WorkshopError
from companion.core.values.text import plain
from companion.storage.export.document import FORMAT, KIND, card_document, piece_document
from companion.storage.export.reading import kept_cards, kept_piece, piece_numbers


def export_lines(db: sqlite3.Connection | None, at: datetime) -> Iterator[str]:
    """The export, a line for each card and piece. Without a database: the export of nothing.

    Raises WorkshopError where a piece or card can't be read.
    """
    yield f'{{"format": {FORMAT}, "kind": "{KIND}", "made_at": "{at.isoformat()}",'
    yield '"cards": ['
    if db is not None:
        yield from _separated(_text(card_document(card)) for card in kept_cards(db))
    yield '], "pieces": ['
    if db is not None:
        yield from _separated(_piece_text(db, number) for number in piece_numbers(db))
    yield "]}"


def _piece_text(db: sqlite3.Connection, number: int) -> str:
    try:
        return _text(piece_document(kept_piece(db, number)))
    except ValueError as error:
        (name,) = db.execute("SELECT name FROM piece WHERE id = ?", (number,)).fetchone()
        raise WorkshopError(f"The piece {name} can't be read whole, so nothing was exported: {error}.") from error


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=True, separators=(",", ":"), allow_nan=False)


def _separated(texts: Iterator[str]) -> Iterator[str]:
    """Every one but the last with its comma: one is held back at a time."""
    last: str | None = None
    for text in texts:
        if last is not None:
            yield last + ","
        last = text
    if last is not None:
        yield last


def write_new(place: Path, lines: Iterator[str], over: bool = False) -> None:
    """Write a file that only its owner may read, whole or not at all. Raises NotStored where it is there already (but
    `over`), or can't be written."""
    from companion.storage.backups import sync_folder
    from companion.storage.database import reason

    shown = plain(str(place))
    if not over and os.path.lexists(place):
        raise NotStored(f"{shown} is there already: nothing was written. Give another name, or --force.")
    new = place.with_name(f".{place.name}.{os.getpid()}.new")
    try:
        new.unlink(missing_ok=True)  # left by an earlier try that could not even take it away
        with open(os.open(new, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "w", encoding="utf-8") as file:
            for line in lines:
                file.write(line + "\n")
            file.flush()
            os.fsync(file.fileno())
        _give_name(new, place, over)
        sync_folder(place.parent)
    except OSError as error:
        raise NotStored(f"{shown} can't be written: {reason(error)}. No export was made.") from error
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)


def _give_name(new: Path, place: Path, over: bool) -> None:
    if not over:
        try:
            os.link(new, place)  # unlike a rename, this takes no name that somebody has taken meanwhile
            return
        except FileExistsError:
            raise
        except OSError:  # a disk without links
            if os.path.lexists(place):
                raise
    os.replace(new, place)
