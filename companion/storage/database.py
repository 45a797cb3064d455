"""Opening the one database with durable settings, and refusing files of another program or of a newer version."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path

from companion.core.values.errors import NotADatabase, NotConfirmed, NotStored
from companion.core.values.text import plain
from companion.storage.database_copy import BUSY_SECONDS, copy_before_change, is_sound
from companion.storage.files import make_folder, sync_folder
from companion.storage.migrations import APPLICATION_ID, CHANGES, migrate
from companion.storage.sentences import damaged, errors_as_sentences, reason

Clock = Callable[[], datetime]


class Database:
    """The file of pieces. It is opened when first needed, and made when first written to."""

    def __init__(self, path: Path, now: Clock) -> None:
        self.path, self.now = path, now
        self._db: sqlite3.Connection | None = None
        self._busy_seconds = BUSY_SECONDS

    def open(self) -> sqlite3.Connection:
        """The connection, always the same one. Raises what `open_database` raises."""
        if self._db is None:
            self._db = open_database(self.path, self.now, self._busy_seconds)
        return self._db

    def close(self) -> None:
        """Close the file."""
        if self._db is not None:
            self._db.close()
            self._db = None

    def wait_at_most(self, seconds: float) -> None:
        """Set how long to wait from now on for a file that another program holds."""
        self._busy_seconds = seconds
        if self._db is not None:
            self._db.execute(f"PRAGMA busy_timeout = {seconds * 1000:.0f}")

    @property
    def has_written(self) -> bool:
        """Whether anything was written through this object since it was opened."""
        return self._db is not None and self._db.total_changes > 0

    def is_there(self) -> bool:
        """Whether the file exists yet. Raises NotStored if that cannot be told."""
        try:
            return self._db is not None or self.path.exists()
        except OSError as error:
            raise NotStored(
                f"The file of pieces can't be reached: {plain(str(self.path))}: {reason(error)}."
            ) from error

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """The connection, with errors turned into sentences. Rows that this program cannot have written mean a damaged
        file."""
        with errors_as_sentences(self.path):
            try:
                yield self.open()
            except (ValueError, TypeError) as error:  # it opens, and holds what nobody wrote
                raise NotADatabase(damaged(self.path)) from error

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """The connection in a transaction: everything written in the block is on disk after it, or nothing is."""
        with self.reading() as db, transaction(db):
            yield db


def open_database(path: Path, now: Clock, busy_seconds: float = BUSY_SECONDS) -> sqlite3.Connection:
    """The database at that path, made if it does not exist and brought up to date. Every commit is on disk before it
    returns.

    `now` dates the copy that is made before the tables change. If another program holds the file, it waits so many
    seconds. Raises NotStored if the file cannot be made or written (Busy if another program holds it), and NotADatabase
    if it is damaged or not ours to touch.
    """
    try:
        make_folder(path.parent)
    except OSError as error:
        raise NotStored(f"The folder for pieces can't be made: {plain(str(path.parent))}: {reason(error)}.") from error
    with errors_as_sentences(path):
        _make_private(path)
        cut_off = _was_cut_off(path)
        db = sqlite3.connect(path, timeout=busy_seconds, isolation_level=None)
        try:
            check_ours(db, path)
            db.execute("PRAGMA foreign_keys = ON")
            db.execute("PRAGMA synchronous = EXTRA")
            db.execute("PRAGMA fullfsync = ON")  # macOS: past the drive's own cache too; elsewhere it means nothing
            if cut_off and not is_sound(db):
                raise NotADatabase(damaged(path))
            if db.execute("PRAGMA user_version").fetchone()[0] < len(CHANGES):
                migrate(db, lambda version: copy_before_change(path, version, now()))
        except BaseException:
            db.close()
            raise
    return db


def _make_private(path: Path) -> None:
    """Make an empty file that only its owner may read, from its first moment; do nothing if there is a file already."""
    if not path.exists():
        with suppress(FileExistsError):  # another Tallycord was quicker
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))


def _was_cut_off(path: Path) -> bool:
    """Whether a process was cut off while writing (or is writing just now): a journal to roll back from lies there."""
    return path.with_name(path.name + "-journal").exists()


def check_ours(db: sqlite3.Connection, path: Path) -> None:
    """Raises NotADatabase for a file of another program or of a newer version."""
    db.execute("BEGIN")  # the three are read at one moment: another Tallycord may be making the file just now
    (application,) = db.execute("PRAGMA application_id").fetchone()
    (version,) = db.execute("PRAGMA user_version").fetchone()
    (tables,) = db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    db.execute("COMMIT")
    shown = plain(str(path))
    if application != APPLICATION_ID and not (application == 0 and tables == 0):
        raise NotADatabase(f"{shown} is not a file of pieces. Nothing was changed: move it away to start afresh.")
    if version > len(CHANGES):
        raise NotADatabase(
            f"{shown} was written by a newer version of Tallycord (version {version} of its shape; this one knows "
            f"{len(CHANGES)}). Nothing was changed: use the newer version."
        )


@contextmanager
def transaction(db: sqlite3.Connection) -> Iterator[None]:
    """BEGIN IMMEDIATE … COMMIT, or nothing at all."""
    db.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        db.rollback()
        raise
    _commit(db)


def _commit(db: sqlite3.Connection) -> None:
    """COMMIT, on disk when it returns. Raises NotConfirmed if it is written but may not survive a power cut."""
    try:
        db.execute("COMMIT")
    except BaseException as error:
        db.rollback()  # does nothing where the journal to roll back from is gone, that is: where all is written
        if getattr(error, "sqlite_errorcode", None) != sqlite3.SQLITE_IOERR_DIR_FSYNC:
            raise
        (path,) = (file for _, name, file in db.execute("PRAGMA database_list") if name == "main")
        _confirm_folder(Path(path).parent)


def _confirm_folder(folder: Path) -> None:
    """Put the folder's own entry on disk once more; that it was not there is all that had gone wrong."""
    try:
        sync_folder(folder)
    except OSError as error:
        raise NotConfirmed(
            f"The disk did not confirm the write: {reason(error)}. "
            "It may have been saved: check before you do it again."
        ) from error
