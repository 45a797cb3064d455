"""Errors of the database and the system, as sentences for the maker."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from companion.core.values.errors import Busy, NotADatabase, NotStored
from companion.core.values.text import plain


@contextmanager
def errors_as_sentences(path: Path) -> Iterator[None]:
    """Turn errors of the database and the system into sentences. What is wrong comes first and the path last, because a
    screen may have room for the beginning only."""
    try:
        yield
    except sqlite3.DatabaseError as error:
        raise _said(error, path) from error
    except UnicodeDecodeError as error:  # words that are none, where SQLite itself tells what is damaged
        raise NotADatabase(damaged(path)) from error
    except OSError as error:
        raise NotStored(f"Nothing was saved: {reason(error)}.") from error


def _said(error: sqlite3.DatabaseError, path: Path) -> NotStored | NotADatabase:
    text = str(error)
    if "locked" in text or "busy" in text:
        return Busy("Another program is using the file of pieces: nothing was saved. Try again.")
    if any(word in text for word in ("not a database", "malformed", "decode", "corrupt", "no such column")):
        return NotADatabase(damaged(path))
    if "full" in text:
        return NotStored("The disk is full: nothing was saved. Make room, then do it again.")
    if getattr(error, "sqlite_errorcode", None) == sqlite3.SQLITE_READONLY_DBMOVED:
        return NotStored(
            "The file of pieces was moved or replaced while Tallycord had it open: nothing was saved. "
            f"Put it back, or leave and start Tallycord again. It was {plain(str(path))}."
        )
    if "readonly" in text or "unable to open" in text:
        return NotStored(
            "The file of pieces can't be written: nothing was saved. "
            f"Check its permissions, and the room on the disk. It is {plain(str(path))}."
        )
    return NotStored(
        f"The disk can't be read or written ({plain(text)}): nothing was saved. Try again; look after the disk."
    )


def reason(error: OSError) -> str:
    """The system's reason for the error, in a few words."""
    return plain(error.strerror or type(error).__name__).lower()


def damaged(path: Path) -> str:
    """A sentence saying that the file is damaged, and what helps."""
    return (
        f"{plain(str(path))} is damaged or not a file of pieces. Nothing was changed: "
        "`tallycord rescue` tells what can be saved."
    )
