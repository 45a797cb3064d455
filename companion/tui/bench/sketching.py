"""What is read for the bench once it stands: the beads of the rows that show, and the chosen one whole. One at a time,
in a thread; no key waits for it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Future
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from companion.tui.widgets.rows import Row
from companion.workshop import PieceRow, Workshop

if TYPE_CHECKING:
    from companion.core.picture.strip import StripCell
    from companion.workshop.bench.sketches import Sketch, Sketched, Sketches

LATE_SECONDS = 0.2  # after the bench stands; before that the first frame is on its way
BETWEEN_SECONDS = 0.01  # two of them
What = PieceRow | Path  # that is drawn


class Sketching:
    """Reads what is wanted and not known yet, and says when there is more of it.

    `wanted`: what to read, the first to begin with, each with whether all of it is wanted or its beads alone; nothing
    where the bench is not to be seen.
    """

    def __init__(
        self, workshop: Workshop, wanted: Callable[[], Iterable[tuple[What, bool]]], more: Callable[[], None]
    ) -> None:
        self._workshop, self._wanted, self._more = workshop, wanted, more
        self._reading = False
        # Before the bench stands nothing is loaded for it; what an earlier bench has read is there at once.
        self._sketches: Sketches | None = vars(workshop).get("sketches")

    @property
    def rests(self) -> bool:
        """Whether nothing that is wanted is still to be read."""
        sketches = self._sketches
        return sketches is not None and all(sketches.is_known(what, whole) for what, whole in self._wanted())

    def beads(self, what_of: Callable[[object], What | None], row: Row) -> Sequence[StripCell]:
        """The beads of that row, () where they are not known. `what_of`: what is drawn in a row that leads there."""
        what = what_of(row.value) if self._sketches else None
        strip = self._sketches.strip(what) if self._sketches and what is not None else None
        if strip is None or row.strip is None:
            return ()
        done = what.steps_done if isinstance(what, PieceRow) and what.state != "finished" else None
        return strip.cells(row.strip.columns, done)

    def whole(self, what: What | None) -> Sketch | None:
        """All of it, None where it is not known."""
        return self._sketches.whole(what) if self._sketches and what is not None else None

    def read_next(self) -> None:
        """Read the first that is wanted and not known; the next one after it."""
        if self._reading:
            return
        sketches = self._sketches = self._workshop.sketches
        unknown = next(((what, whole) for what, whole in self._wanted() if not sketches.is_known(what, whole)), None)
        if unknown is None:
            return
        what, whole = unknown
        self._reading, loop = True, asyncio.get_running_loop()

        def hand_over(read: Future[Sketched]) -> None:
            with suppress(RuntimeError):  # the app has ended meanwhile
                loop.call_soon_threadsafe(self._arrived, what, whole, read)

        sketches.read(what).add_done_callback(hand_over)

    def _arrived(self, what: What, whole: bool, read: Future[Sketched]) -> None:
        self._reading = False
        self._workshop.sketches.keep(what, None if read.exception() else read.result(), whole)
        self._more()
        asyncio.get_running_loop().call_later(BETWEEN_SECONDS, self.read_next)
