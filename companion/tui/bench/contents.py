"""What lies on the bench, read anew only where something has changed: a bench that nobody touches costs little."""

from __future__ import annotations

import time
from collections.abc import Mapping
from functools import cached_property
from pathlib import Path

from msgspec import Struct

from companion.core.cord.cards import CordCard
from companion.core.values.errors import WorkshopError
from companion.workshop import PieceRow, Workshop

MOST_DESIGNS = 500
SETTLED_SECONDS = 2.0  # a folder that was changed so lately may change again and show the same time


class Contents(Struct, frozen=True, dict=True):
    """Pieces, the latest touched first, and the size of each as its maker wrote it; designs of the maker's own folder,
    of the present one and those that are shipped; cord cards by name. `fault`: why the pieces can't be read."""

    pieces: tuple[PieceRow, ...] = ()
    sizes: tuple[str, ...] = ()
    own_designs: tuple[Path, ...] = ()
    designs_here: tuple[Path, ...] = ()
    shipped_designs: tuple[Path, ...] = ()
    cards: tuple[CordCard, ...] = ()
    fault: str = ""

    @cached_property
    def by_name(self) -> Mapping[str, PieceRow]:
        """The pieces, each by its name."""
        return {piece.name: piece for piece in self.pieces}

    @property
    def designs(self) -> tuple[Path, ...]:
        """All designs."""
        return (*self.own_designs, *self.designs_here, *self.shipped_designs)


class DesignFolder:
    """The designs of a folder; listed anew where the folder has changed, or may have since it was listed."""

    def __init__(self) -> None:
        self._changed_at = 0.0  # when the folder had last changed, when it was last listed; 0: not known
        self._folder: Path | None = None
        self._listed: tuple[Path, ...] = ()

    def designs(self, folder: Path) -> tuple[Path, ...]:
        """By name; none of a folder that is not there. The very same value where nothing has changed."""
        try:
            changed_at = folder.stat().st_mtime
            if (folder, changed_at) == (self._folder, self._changed_at):
                return self._listed
            found = tuple(sorted(folder.glob("*.yaml"))[:MOST_DESIGNS])
        except OSError:
            changed_at, found = 0.0, ()
        self._folder = folder
        self._changed_at = changed_at if time.time() - changed_at > SETTLED_SECONDS else 0.0
        if found != self._listed:
            self._listed = found
        return self._listed


class BenchReader:
    """Looks at the file of pieces, at the maker's own designs, and at the folder that Tallycord was started in."""

    def __init__(self, workshop: Workshop) -> None:
        self.workshop = workshop
        self._contents = Contents()
        self._state: object = None  # of the file of pieces, when it was last read
        self._sizes: dict[int, str] = {}  # by the piece's number; the size that a piece is made to stays
        self._own, self._here = DesignFolder(), DesignFolder()
        self._shipped = workshop.shipped_designs()

    def read(self) -> Contents:
        """What is there now: the very same value where nothing has changed."""
        own, here = self._designs()
        before = self._contents
        shipped = before.shipped_designs
        if (own, here) != (before.own_designs, before.designs_here) or not shipped:
            shipped = tuple(path for path in self._shipped if path not in own and path not in here)
        try:
            state = self.workshop.state()
            pieces = self.workshop.pieces() if state != self._state else before.pieces
            sizes = self._sizes_of(pieces) if state != self._state else before.sizes
        except WorkshopError as error:
            self._state, self._contents = None, Contents((), (), own, here, shipped, (), str(error))
            return self._contents
        cards = self._cards() if state != self._state else before.cards
        now = Contents(pieces, sizes, own, here, shipped, cards)
        if state != self._state or now != before:
            self._state, self._contents = state, now
        return self._contents

    def _sizes_of(self, pieces: tuple[PieceRow, ...]) -> tuple[str, ...]:
        new = [piece.id for piece in pieces if piece.id not in self._sizes]
        if new:
            self._sizes.update(self.workshop.sizes(after=min(new) - 1))
        return tuple(self._sizes.get(piece.id, "") for piece in pieces)

    def _cards(self) -> tuple[CordCard, ...]:
        try:
            return self.workshop.cards()
        except WorkshopError:  # the pieces can be read: no reason to hide them
            return ()

    def _designs(self) -> tuple[tuple[Path, ...], tuple[Path, ...]]:
        """The maker's own, and those of the present folder, where that is another one."""
        folder = self.workshop.designs_folder
        own = self._own.designs(folder)
        try:
            present = Path.cwd()
        except OSError:  # the folder is gone
            return own, ()
        return own, () if present == folder else self._here.designs(present)
