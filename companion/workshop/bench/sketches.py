"""What the bench draws of pieces and designs: read one at a time in a thread, for the screen waits for none of it.

A piece keeps its compiled plan; a design has to be read and planned. What was read is kept as long as the workshop.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from pathlib import Path
from typing import Protocol

from msgspec import Struct

from companion.core.journal.piece import Piece
from companion.core.picture.strip import BeadStrip, bead_strip
from companion.core.plan.plan import Plan
from companion.core.values.errors import WorkshopError
from companion.core.words.piece_page import InShort, in_short
from companion.storage.kept import PieceRow
from companion.workshop.beside import started
from companion.workshop.open_piece import OpenPiece
from companion.workshop.results import Planned

MOST_WHOLE = 8  # plans that are kept; of all others only the strip


class Sketch(Struct, frozen=True):
    """A piece or a design to be drawn. `piece`: as it stands; None for a design."""

    name: str
    plan: Plan
    piece: Piece | None = None


class Sketched(Struct, frozen=True):
    """What was read; None of what can't be read or has no plan."""

    strip: BeadStrip | None = None
    in_short: InShort | None = None
    sketch: Sketch | None = None


class Reader(Protocol):
    """A workshop of its own for a thread, as far as sketches need one."""

    def open(self, name: str) -> OpenPiece:
        """The piece of that name."""

    def plan(self, path: Path) -> Planned:
        """The plan of a design."""

    def close(self) -> None:
        """Let the file go."""


class Sketches:
    """Belongs to one thread, the one that asks; what it asks for is read in another.

    A piece is known by its number and its steps (another plan has others), a design by its file as it was last
    written. Whole sketches of pieces are those of how it stood when it was last touched.
    """

    def __init__(self, reader: Callable[[], Reader]) -> None:
        self._reader = reader
        self._strips: dict[object, BeadStrip | None] = {}
        self._in_short: dict[object, InShort | None] = {}
        self._whole: dict[object, Sketch | None] = {}

    def bead_strip(self, what: PieceRow | Path) -> BeadStrip | None:
        """Its strip, None where it is not known, or has none."""
        return self._strips.get(_key(what))

    def in_short(self, what: PieceRow | Path) -> InShort | None:
        """Its size and kind in words, None where they are not known."""
        return self._in_short.get(_key(what))

    def whole(self, what: PieceRow | Path) -> Sketch | None:
        """The whole sketch, None where it is not known, or not kept any more."""
        return self._whole.get(_key(what, whole=True))

    def is_known(self, what: PieceRow | Path, whole: bool = False) -> bool:
        """Whether it need not be read. `whole`: all of it, and not its strip alone."""
        return _key(what, whole) in (self._whole if whole else self._strips)

    def read(self, what: PieceRow | Path) -> Future[Sketched]:
        """Begin to read it, in a thread; `keep` what comes of it."""
        return started(lambda: read_sketch(self._reader, what), "sketch")

    def keep(self, what: PieceRow | Path, read: Sketched | None, whole: bool) -> None:
        """That is what was read of it, None: nothing can be, and it is not asked for again while it is the same.
        `whole`: all of it is kept, and of those that were kept so before the latest few."""
        read = read or Sketched()
        self._strips[_key(what)] = read.strip
        self._in_short[_key(what)] = read.in_short
        if whole:
            self._whole[_key(what, whole=True)] = read.sketch
            while len(self._whole) > MOST_WHOLE:
                del self._whole[next(iter(self._whole))]


def read_sketch(reader: Callable[[], Reader], what: PieceRow | Path) -> Sketched:
    """Read it now. What is wrong with a piece or a design is said where it is opened."""
    shop = reader()
    try:
        if isinstance(what, Path):
            plan = shop.plan(what).plan
            sketch = Sketch(plan.design, plan) if plan else None
        else:
            opened = shop.open(what.name)
            sketch = Sketch(opened.name, opened.plan, opened.piece)
    except (WorkshopError, OSError):
        sketch = None
    finally:
        shop.close()
    return Sketched(bead_strip(sketch.plan), in_short(sketch.plan), sketch) if sketch else Sketched()


def _key(what: PieceRow | Path, whole: bool = False) -> object:
    if not isinstance(what, Path):
        return what.id, what.steps_total, what.name if whole else "", what.touched_at if whole else None
    try:
        written = what.stat()
    except (OSError, ValueError):
        return what
    return what, written.st_mtime_ns, written.st_size
