"""Opening the one database: durable settings, and refusal of files that are not ours or newer than we are."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path

from companion.core.values.errors import Busy, NotADatabase, NotConfirmed, NotStored
from companion.core.values.text import plain
from companion.storage.migrations import APPLICATION_ID, CHANGES, migrate

BUSY_SECONDS = 5.0


def utc_now() -> datetime:
    """The clock."""
    return datetime.now(UTC)


def open_database(
    path: Path, busy_seconds: float = BUSY_SECONDS, now: Callable[[], datetime] = utc_now
) -> sqlite3.Connection:
    """The database at that path, made if it is not there, brought up to date, every commit on disk before it returns.

    A file that another program holds is waited for so long, in seconds. Raises NotStored where it can't be made or
    written (Busy where it is held), NotADatabase where it is not ours to touch, or is damaged.
    """
    _make_folder(path.parent)
    with sentences(path):
        _make_private(path)
        cut_off = _was_cut_off(path)
        db = sqlite3.connect(path, timeout=busy_seconds, isolation_level=None)
        try:
            check_ours(db, path)
            db.execute("PRAGMA foreign_keys = ON")
            db.execute("PRAGMA synchronous = EXTRA")
            db.execute("PRAGMA fullfsync = ON")  # macOS: past the drive's own cache too; elsewhere it means nothing
            if cut_off and list(db.execute("PRAGMA quick_check(1)")) != [("ok",)]:
                raise NotADatabase(damaged(path))
            if db.execute("PRAGMA user_version").fetchone()[0] < len(CHANGES):
                migrate(db, lambda version: _keep_a_copy(path, version, now()))
        except BaseException:
            db.close()
            raise
    return db


def _make_folder(folder: Path) -> None:
    try:
        new = [place for place in (folder, *folder.parents) if not place.exists()]
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        for place in new:  # a folder whose name is not on disk is lost with all that is
            with suppress(OSError):
                _sync_folder(place.parent)
    except OSError as error:
        raise NotStored(f"The folder for pieces can't be made: {_place(folder)}: {reason(error)}.") from error


def _make_private(path: Path) -> None:
    """An empty file that only its owner may read, from its first moment; nothing where there is a file already."""
    if not path.exists():
        with suppress(FileExistsError):  # another companion was quicker
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))


def _was_cut_off(path: Path) -> bool:
    """Whether somebody was cut off while writing (or is writing just now): the journal to roll back from is there."""
    return path.with_name(path.name + "-journal").exists()


def _keep_a_copy(path: Path, version: int, now: datetime) -> None:
    from companion.storage.backups import copy_before_change

    copy_before_change(path, version, now)


def check_ours(db: sqlite3.Connection, path: Path) -> None:
    """Raises NotADatabase for a file that is another program's, or a newer companion's."""
    db.execute("BEGIN")  # the three are read at one moment: another companion may be making the file just now
    (application,) = db.execute("PRAGMA application_id").fetchone()
    (version,) = db.execute("PRAGMA user_version").fetchone()
    (tables,) = db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    db.execute("COMMIT")
    if application != APPLICATION_ID and not (application == 0 and tables == 0):
        raise NotADatabase(f"{_place(path)} is not a file of pieces. Nothing was changed: move it away to begin anew.")
    if version > len(CHANGES):
        raise NotADatabase(
            f"{_place(path)} was written by a newer companion (version {version} of its shape; this one knows "
            f"{len(CHANGES)}). Nothing was changed: use the newer companion."
        )


@contextmanager
def sentences(path: Path) -> Iterator[None]:
    """Turn the database's and the system's errors into sentences for the maker: what is wrong comes first, the path
    last, for a screen may have room for the beginning only."""
    try:
        yield
    except sqlite3.DatabaseError as error:
        text = str(error)
        if "locked" in text or "busy" in text:
            raise Busy("Another program holds the file of pieces: nothing was stored. Try again.") from error
        if any(word in text for word in ("not a database", "malformed", "decode", "corrupt")):
            raise NotADatabase(damaged(path)) from error
        if "full" in text:
            raise NotStored("The disk is full: nothing was stored. Make room, then do it again.") from error
        if getattr(error, "sqlite_errorcode", None) == sqlite3.SQLITE_READONLY_DBMOVED:
            raise NotStored(
                "The file of pieces was moved or replaced while the companion had it open: nothing was stored. "
                f"Put it back, or leave and start the companion again. It was {_place(path)}."
            ) from error
        if "readonly" in text or "unable to open" in text:
            raise NotStored(
                "The file of pieces can't be written: nothing was stored. "
                f"Look at its permissions, and at the room on the disk. It is {_place(path)}."
            ) from error
        raise NotStored(
            f"The disk can't be read or written ({plain(text)}): nothing was stored. Try again; look after the disk."
        ) from error
    except UnicodeDecodeError as error:  # words that are none, where SQLite itself tells what is damaged
        raise NotADatabase(damaged(path)) from error
    except OSError as error:
        raise NotStored(f"Nothing was stored: {reason(error)}.") from error


def reason(error: OSError) -> str:
    """What the system says went wrong, in a few words."""
    return plain(error.strerror or type(error).__name__).lower()


def damaged(path: Path) -> str:
    """That the file is damaged, and what helps."""
    return (
        f"{_place(path)} is damaged or not a file of pieces. Nothing was changed: "
        "`companion rescue` tells what can be saved."
    )


def _place(path: Path) -> str:
    return plain(str(path))


class transaction:
    """BEGIN IMMEDIATE … COMMIT, or nothing at all."""

    def __init__(self, db: sqlite3.Connection) -> None:
        self.db = db

    def __enter__(self) -> None:
        self.db.execute("BEGIN IMMEDIATE")

    def __exit__(self, kind: type[BaseException] | None, *rest: object) -> None:
        if kind is None:
            _commit(self.db)
        else:
            self.db.rollback()


def _commit(db: sqlite3.Connection) -> None:
    """COMMIT, and on disk when it returns. Raises NotConfirmed where it is written, but may not outlast a power cut."""
    try:
        db.execute("COMMIT")
    except BaseException as error:
        db.rollback()  # does nothing where the journal to roll back from is gone, that is: where all is written
        if getattr(error, "sqlite_errorcode", None) != sqlite3.SQLITE_IOERR_DIR_FSYNC:
            raise
        (path,) = (file for _, name, file in db.execute("PRAGMA database_list") if name == "main")
        _confirm_folder(Path(path).parent)


def _confirm_folder(folder: Path) -> None:
    """The folder's own entry on disk: that it was not is all that went wrong. Tried once more."""
    try:
        _sync_folder(folder)
    except OSError as error:
        raise NotConfirmed(
            f"The disk does not confirm what was written: {reason(error)}. "
            "It may be stored: look at it before you do it again."
        ) from error


def _sync_folder(folder: Path) -> None:
    number = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(number)
    finally:
        os.close(number)
