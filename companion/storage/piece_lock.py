"""Which window works on a piece: an advisory lock of the system on a small file beside the database.

The lock ends with the process that has it, however it ends. Another window takes over by taking the file away and
making its own: whoever held the old one finds that out when it looks, even if it slept all the while. Nothing here
guards the count, which is the transaction's work; this keeps two windows from being used side by side unawares.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from companion.storage.kept import Holder

_TRIES = 5  # a file that is taken away between opening and locking it is opened anew


class PieceLock:
    """One window's lock on one piece."""

    def __init__(self, folder: Path, piece_id: int) -> None:
        self.piece_id = piece_id
        self.path = folder / f"piece-{piece_id}.in-hand"
        self._file: int | None = None

    def take(self) -> Holder:
        """Take the piece where it is free; where it is taken already: whether it still is, and by whom.

        A lock that was lost is told as lost once before it is tried for again.
        """
        if self._file is None:
            return self._take()
        try:
            if os.path.samestat(os.fstat(self._file), os.stat(self.path)):
                return "here"
        except FileNotFoundError:
            if not os.path.isdir(self.path.parent):  # a folder that has gone may come back, the file in it
                return "nowhere"
        except OSError:  # there may be no looking into the folder for a while
            return "nowhere"
        self._close()
        return "elsewhere"

    def take_over(self) -> Holder:
        """Take the piece, whoever has it."""
        if self.take() == "here":
            return "here"
        with suppress(OSError):
            self.path.unlink()
        return self.take()

    def let_go(self) -> None:
        """Leave the piece to whoever wants it."""
        if self._file is not None and self.take() == "here":
            with suppress(OSError):
                self.path.unlink()
        self._close()

    def _take(self) -> Holder:
        for _ in range(_TRIES):
            try:
                file = os.open(self.path, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o600)
            except OSError:
                return "nowhere"
            holder = _lock(file)
            if holder == "here" and self._is_at_path(file):
                self._file = file
                return holder
            os.close(file)
            if holder != "here":
                return holder
        return "elsewhere"

    def _is_at_path(self, file: int) -> bool:
        try:
            return os.path.samestat(os.fstat(file), os.stat(self.path))
        except OSError:
            return False

    def _close(self) -> None:
        if self._file is not None:
            os.close(self._file)
            self._file = None


def _lock(file: int) -> Holder:
    """Lock an open file for as long as it is open. The one place that knows the system's locks."""
    try:
        from fcntl import LOCK_EX, LOCK_NB, flock
    except ImportError:  # no such locks: every window writes, and the transactions keep the count whole
        return "nowhere"
    try:
        flock(file, LOCK_EX | LOCK_NB)
    except BlockingIOError:
        return "elsewhere"
    except OSError:
        return "nowhere"
    return "here"
