"""Which window works on a piece: an advisory system lock on a small file beside the database.

The lock ends with the process that holds it, however that ends. Another window takes over by removing the file and
making its own; whoever held the old one finds out when it looks, even if it slept in between. The lock does not guard
the count, which the transactions do. It keeps a maker from working in two windows without noticing.
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
        """Take the piece if it is free, and say who holds it then.

        A lock that was lost is reported as lost once before this window tries for it again.
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
        """Take the piece, whoever holds it."""
        if self.take() == "here":
            return "here"
        with suppress(OSError):
            self.path.unlink()
        return self.take()

    def let_go(self) -> None:
        """Give the piece up, for whoever wants it."""
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
    """Lock an open file for as long as it is open. The only place that knows the system's locks."""
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
