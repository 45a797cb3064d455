"""What is drawn on the bench once it stands: the beads of the rows that show, and the chosen one at the right. Read one
at a time, in a thread; no key waits for it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from companion.tui.handing_over import hand_over
from companion.tui.page import ListPage
from companion.tui.widgets.rows import Row
from companion.workshop import PieceRow, Workshop

if TYPE_CHECKING:
    from textual.timer import Timer

    from companion.core.picture.strip import StripCell
    from companion.core.words.piece_page import InShort
    from companion.workshop.bench.sketches import Sketch, Sketched, Sketches

LATE_SECONDS = 0.2  # after the bench is built: before that its first frame is on its way
SETTLED_SECONDS = 0.1  # after the cursor has moved: a row that it only passes is not drawn
BETWEEN_SECONDS = 0.01  # two that are read
BESIDE_FROM, LIST_SHARE = 100, 60  # columns of a screen with the chosen one drawn; the list's share of it, in 100
What = PieceRow | Path  # that is drawn


class Sketching:
    """Reads what the page shows and is not known yet, and has it shown. `what_of`: what is drawn in a row that leads
    there; `shown`: told when more is known."""

    def __init__(
        self,
        page: ListPage,
        workshop: Workshop,
        what_of: Callable[[object], What | None],
        shown: Callable[[], None] = lambda: None,
    ) -> None:
        self._page, self._workshop, self._what_of, self._shown = page, workshop, what_of, shown
        self._timer: Timer | None = None
        self._reading = False
        self.stands = False  # the first frame is there
        # Before the bench stands nothing is loaded for it; what an earlier bench has read is there at once.
        self._sketches: Sketches | None = vars(workshop).get("sketches")

    def begin(self) -> None:
        """The page is built."""
        self._page.rows.beads_of, self._page.rows.words_of = self._beads, self._kind
        self._timer = self._page.set_timer(LATE_SECONDS, self._show)

    def cursor_moved(self) -> None:
        """Draw what the row under the cursor leads to, where it rests there."""
        if self.stands and self._timer is not None:
            self._timer.stop()
            self._timer = self._page.set_timer(SETTLED_SECONDS, self._cursor_rests)

    @property
    def is_wide(self) -> bool:
        """Whether there is room for the chosen one."""
        return self._page.size.width >= BESIDE_FROM

    @property
    def rests(self) -> bool:
        """Whether nothing that shows is still to be read."""
        sketches = self._sketches
        return sketches is not None and all(sketches.is_known(what, whole) for what, whole in self._wanted())

    # -- showing ------------------------------------------------------------------------------------------------------

    def _beads(self, row: Row) -> Sequence[StripCell]:
        """The beads of a row, () where they are not known."""
        what = self._what_of(row.value) if self._sketches else None
        strip = self._sketches.bead_strip(what) if self._sketches and what is not None else None
        if strip is None or row.strip is None:
            return ()
        done = what.steps_done if isinstance(what, PieceRow) and what.state != "finished" else None
        return strip.cells(row.strip.columns, done)

    def _kind(self, row: Row) -> str:
        """The size and kind of a row's design in words, "" where they are not known."""
        told = self.in_short(row.value)
        return told.kind if told else ""

    def in_short(self, value: object) -> InShort | None:
        """What a row that leads there shows, in words; None where that is not known."""
        what = self._what_of(value) if self._sketches else None
        return self._sketches.in_short(what) if self._sketches and what is not None else None

    def _show(self) -> None:
        """Show what is known by now, and read on; nothing on a page that was left meanwhile."""
        if self._page_stands():
            self.stands = True
            self._page.rows.refresh()
            self._shown()
            self._cursor_rests()

    def _page_stands(self) -> bool:
        """Whether there is somewhere to show it: of a page that is being left the parts go one by one."""
        return self._page.is_attached and bool(self._page.query("Rows"))

    def _cursor_rests(self) -> None:
        if self._page_stands() and self.is_wide:
            from companion.tui.bench.chosen import Chosen

            chosen = next(iter(self._page.query(Chosen)), None)
            if chosen is None:
                chosen = Chosen()
                self._page.mount(chosen)  # a page that is just being left takes nothing any more
            chosen.show(self._whole(self._what_of(self._page.rows.chosen)))
        self.read_next()

    def _whole(self, what: What | None) -> Sketch | None:
        return self._sketches.whole(what) if self._sketches and what is not None else None

    # -- reading ------------------------------------------------------------------------------------------------------

    def read_next(self) -> None:
        """Read the first that shows and is not known; the next one after it."""
        if self._reading or not self.stands or not self._page.is_attached:
            return
        sketches = self._sketches = self._workshop.sketches
        unknown = next(((what, whole) for what, whole in self._wanted() if not sketches.is_known(what, whole)), None)
        if unknown is None:
            return
        what, whole = unknown
        self._reading = True
        hand_over(sketches.read(what), partial(self._arrived, what, whole))

    def _wanted(self) -> Iterator[tuple[What, bool]]:
        """What shows, and whether all of it is drawn or its beads alone: the chosen one first, then the rows; nothing
        of a page that is not on top."""
        if not self._page.is_current:
            return
        chosen = self._what_of(self._page.rows.chosen)
        if chosen is not None:
            yield chosen, self.is_wide
        for row in self._page.rows.seen:
            what = self._what_of(row.value)
            if what is not None and (row.strip or row.words):
                yield what, False

    def _arrived(self, what: What, whole: bool, read: Future[Sketched]) -> None:
        self._reading = False
        self._workshop.sketches.keep(what, None if read.exception() else read.result(), whole)
        self._show()
        asyncio.get_running_loop().call_later(BETWEEN_SECONDS, self.read_next)
