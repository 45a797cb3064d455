"""What lies on the bench, read anew only where something has changed: a bench that nobody touches costs little."""

from __future__ import annotations

import time
from pathlib import Path

from msgspec import Struct

from companion.core.cord.cards import CordCard
from companion.core.values.errors import WorkshopError
from companion.workshop import PieceRow, Workshop

MOST_DESIGNS = 500
SETTLED_SECONDS = 2.0  # a folder that was changed so lately may change again and show the same time


class Contents(Struct, frozen=True):
    """Pieces, the latest touched first; designs of the folder, then those that are shipped; cord cards by name.
    `fault`: why the pieces can't be read."""

    pieces: tuple[PieceRow, ...] = ()
    designs: tuple[Path, ...] = ()
    cards: tuple[CordCard, ...] = ()
    fault: str = ""


class BenchReader:
    """Looks at the file of pieces, and at the folder that Tallycord was started in."""

    def __init__(self, workshop: Workshop) -> None:
        self.workshop = workshop
        self._contents = Contents()
        self._state: object = None  # of the file of pieces, when it was last read
        self._changed_at = 0.0  # when the folder had last changed, when it was last listed; 0: not known
        self._shipped = workshop.shipped_designs()

    def read(self) -> Contents:
        """What is there now: the very same value where nothing has changed."""
        designs = self._designs()
        try:
            state = self.workshop.state()
            if state == self._state and designs is self._contents.designs:
                return self._contents
            pieces = self.workshop.pieces() if state != self._state else self._contents.pieces
        except WorkshopError as error:
            self._state, self._contents = None, Contents((), designs, (), str(error))
            return self._contents
        cards = self._cards() if state != self._state else self._contents.cards
        self._state, self._contents = state, Contents(pieces, designs, cards)
        return self._contents

    def _cards(self) -> tuple[CordCard, ...]:
        try:
            return self.workshop.cards()
        except WorkshopError:  # the pieces can be read: no reason to hide them
            return ()

    def _designs(self) -> tuple[Path, ...]:
        """The folder's designs; listed anew where the folder has changed, or may have since it was listed."""
        try:
            folder = Path.cwd()
            changed_at = folder.stat().st_mtime
            if changed_at == self._changed_at:
                return self._contents.designs
            here = tuple(sorted(folder.glob("*.yaml"))[:MOST_DESIGNS])
        except OSError:  # the folder is gone
            changed_at, here = 0.0, ()
        self._changed_at = changed_at if time.time() - changed_at > SETTLED_SECONDS else 0.0
        designs = (*here, *(path for path in self._shipped if path not in here))
        return designs if designs != self._contents.designs else self._contents.designs
