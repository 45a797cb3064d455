"""The use cases, one method each. Clock and store are passed in; `open_at` puts the real ones together.

Everything that changes a piece is one event, one transaction, against the piece as it was last seen: when a method
returns, the event is on disk; when it raises, nothing was written.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from companion.core.journal.events import (
    Abandoned,
    Changed,
    Confirmed,
    CutEntered,
    Event,
    Joined,
    Jumped,
    Measured,
    Noted,
    ReadingKind,
    Recounted,
    Started,
    Undone,
    Withdrawn,
)
from companion.core.journal.fold import after, fold, undo_of
from companion.core.journal.pace import LATEST, Pace, pace
from companion.core.journal.piece import NOT_BEGUN, Piece
from companion.core.plan.plan import Plan
from companion.core.values.errors import InOtherHands, NotConfirmed, NotPossible, Stale, WorkshopError
from companion.storage.folders import DATABASE, data_folder, digest_of, full_path
from companion.storage.kept import DatedEvent, DesignCopy, PieceRow, Summary
from companion.storage.piece_lock import Holder, PieceLock
from companion.storage.pieces import Store
from companion.workshop.copies import Safekeeping
from companion.workshop.design_desk import DesignDesk, Planned
from companion.workshop.forecasts import Forecasts, new_forecaster
from companion.workshop.open_piece import OpenPiece, after_event, replanned, warning_of
from companion.workshop.teaching import Teaching, finished_event, teaching

if TYPE_CHECKING:  # the design reader and the forecast come in when they are first needed: a start is quicker
    from companion.core.forecast.outlook import Outlook
    from companion.core.remedies.remedy import Remedy

# A forecast does not hang on a confirm, so a step costs none.
CHANGES_THE_FORECAST = (Measured, Withdrawn, Recounted, Changed, Joined, CutEntered, Undone, Jumped)
MOST_BEADS_OVER = 10  # more than twice the planned beads and these is a slip of the finger


class Workshop(DesignDesk, Safekeeping):
    """What a maker can do. One instance a process."""

    def __init__(self, store: Store, now: Callable[[], datetime]) -> None:
        super().__init__(store.database, now)
        self._store = store
        self.forecasts = Forecasts()
        self._forecasts_wait = False  # whether a forecast that takes long may come after the event it follows from
        self._latest: dict[int, int] = {}  # the newest revision of each piece that was seen here
        self._looked: dict[int, int] = {}  # the store's version when each piece was last caught up with
        self._lock: PieceLock | None = None  # the piece that a screen has in hand, or would have

    @property
    def has_written(self) -> bool:
        """Whether anything was written since this workshop was opened."""
        return self._store.database.has_written or self._imported

    # -- pieces -------------------------------------------------------------------------------------------------------

    def pieces(self) -> tuple[PieceRow, ...]:
        """Every piece, the latest touched first."""
        return self._store.rows()

    def state(self) -> tuple[int, ...]:
        """A value that is another one once anything was written, here or elsewhere. Cheap: no piece is read."""
        return self._store.state()

    def pieces_of(self, path: Path) -> tuple[PieceRow, ...]:
        """The pieces under way of that design: by its full path or, moved, by equal content. The file is not parsed."""
        rows = [row for row in self.pieces() if row.state == "under way"]
        full, digest = full_path(path), digest_of(path) if rows else ""
        return tuple(row for row in rows if row.design_path == full or (digest and row.design_digest == digest))

    def start(self, path: Path, cuts: Sequence[CutEntered] = (), planned: Planned | None = None) -> OpenPiece:
        """A new piece of that design, with the cuts really made. Raises WorkshopError where the design has errors."""
        planned = planned or self.plan(path)
        if planned.plan is None:
            raise WorkshopError("\n".join(str(problem) for problem in planned.problems))
        events: list[Event] = [Started(planned.plan.total_steps), *cuts]
        piece = fold(events)
        word = warning_of(new_forecaster(planned.plan).outlook(piece))  # a cut too short shows on the bench at once
        reading, at = planned.reading, self._now()
        design = DesignCopy(planned.plan.design, full_path(path), reading.digest, reading.text)
        row = self._store.add(planned.plan, design, events, at, Summary.of(piece, word))
        return self._work(row, planned.plan, self._store.journal(row.id))

    def open(self, name: str) -> OpenPiece:
        """The piece of that name. Raises NoSuchPiece."""
        row = self._store.row(name)
        return self._work(row, self._store.plan(row.id), self._store.journal(row.id))

    def refresh(self, opened: OpenPiece) -> OpenPiece:
        """The piece as it stands now: the very same value where nothing has been written since."""
        version, behind = self._store.version(), opened.revision < self._latest.get(opened.id, 0)
        if version == self._looked.get(opened.id) and not behind:
            return opened
        opened = self._caught_up(opened)
        self._looked[opened.id] = version
        return opened

    def _caught_up(self, opened: OpenPiece) -> OpenPiece:
        entries = self._store.journal(opened.id, opened.revision)
        for entry in entries:
            opened = after_event(opened, entry.event, entry.at)
        if entries:
            opened = replace(opened, warning=self._store.warning(opened.id))
        self._latest[opened.id] = opened.revision
        return opened

    def _work(self, row: PieceRow, plan: Plan, entries: Sequence[DatedEvent]) -> OpenPiece:
        times = [entry.at.timestamp() for entry in entries if isinstance(entry.event, Confirmed)]
        piece = fold(entry.event for entry in entries)
        opened = OpenPiece(
            row.id,
            row.name,
            plan,
            piece,
            len(entries),
            row.design_path,
            row.design_digest,
            row.started_at,
            row.touched_at,
            row.warning,
            tuple(times[-LATEST - 1 :]),
        )
        return replanned(opened, piece) if piece.changes else opened

    # -- which window has it in hand ----------------------------------------------------------------------------------

    def take_in_hand(self, opened: OpenPiece, anyway: bool = False) -> Holder:
        """Take the piece in hand for a screen, or see whether it still is: "here", or "elsewhere" in another window,
        which `anyway` takes it from; "nowhere" on a system or folder that keeps no locks. From now on nothing is
        written to it from here while it is elsewhere. A piece that was in hand before is let go.
        """
        if self._lock is None or self._lock.piece_id != opened.id:
            self.let_go()
            self._lock = PieceLock(self._store.path.parent, opened.id)
        return self._lock.take_over() if anyway else self._lock.take()

    def let_go(self) -> None:
        """No piece is in hand any more."""
        if self._lock is not None:
            self._lock.let_go()
            self._lock = None

    def wait_at_most(self, seconds: float) -> None:
        """How long to wait from now on for a file of pieces that another program holds."""
        self._store.database.wait_at_most(seconds)

    # -- what the maker does ------------------------------------------------------------------------------------------

    def confirm(self, opened: OpenPiece, step: int | None = None) -> OpenPiece:
        """The present step is made. `step`: the one the maker means, where that is known.

        Raises Stale, NotStored or NotPossible: then it does not count.
        """
        return self._add(opened, Confirmed(opened.piece.done + 1 if step is None else step))

    def undo(self, opened: OpenPiece) -> OpenPiece:
        """Take back the latest confirm or jump, or open an ended piece again."""
        return self._add(opened, undo_of(opened.piece))

    def enter_cut(self, opened: OpenPiece, cord: int, length_mm: float, typed: str) -> OpenPiece:
        """The length really cut for the plan's `cord`-th cord (from 0), whole, mm."""
        return self._add(opened, CutEntered(cord, length_mm, typed))

    def measure(
        self,
        opened: OpenPiece,
        kind: ReadingKind,
        length_mm: float,
        typed: str,
        step: int | None = None,
        ruler_step_mm: float = 1.0,
    ) -> OpenPiece:
        """A ruler reading, mm, after step `step` (none: the last one made)."""
        at = opened.piece.done if step is None else step
        return self.take_readings(opened, [Measured(kind, at, length_mm, typed, ruler_step_mm)])

    def take_readings(self, opened: OpenPiece, readings: Sequence[Measured]) -> OpenPiece:
        """Several readings, all of them or none."""
        return self._add(opened, *readings)

    def withdraw(self, opened: OpenPiece) -> OpenPiece:
        """Take back the latest reading that counts. Raises NotPossible where there is none."""
        return self._add(opened, Withdrawn())

    def remedies(self, opened: OpenPiece) -> tuple[Remedy, ...]:
        """What would bring the piece back to its length, the first to begin with."""
        from companion.core.remedies.search import remedies

        return remedies(opened.plan, opened.piece, self.outlook(opened))

    def choose(self, opened: OpenPiece, remedy: Remedy) -> OpenPiece:
        """Go on as that remedy says: what is left of the piece is another from here on, or the work goes back to where
        it went wrong. Taken back like a step. Joining new cord needs its length: see `join`."""
        from companion.core.plan.replan import changed_plan, same_steps_made

        if remedy.join:
            raise NotPossible("New cord is joined on with its length.")
        if remedy.back_to is not None:
            return self.jump(opened, remedy.back_to)
        plan = changed_plan(opened.plan, (remedy.event(0),))
        if not same_steps_made(opened.plan, plan, opened.piece.done):
            raise NotPossible("That would change steps that are made already.")
        return self._add(opened, remedy.event(plan.total_steps))

    def join(self, opened: OpenPiece, added_mm: float, typed: str) -> OpenPiece:
        """New cord is joined on here: so much more a layer than there was, mm."""
        return self._add(opened, Joined(opened.piece.done, added_mm, typed))

    def recount(
        self, opened: OpenPiece, step: int | None = None, since: int = 0, beads: int | None = None
    ) -> OpenPiece:
        """The beads of the steps after `since` up to `step` (none: the last one made) were counted: so many, or as many
        as the plan says."""
        from companion.core.forecast.counting import stretch

        step = opened.piece.done if step is None else step
        if beads is None or not 0 <= since <= step <= opened.piece.done:  # the fold says what is wrong
            return self._add(opened, Recounted(step, since))
        planned = stretch(opened.plan, since, step).beads
        if not 0 <= beads <= 2 * planned + MOST_BEADS_OVER:
            raise NotPossible(f"{planned} beads should be there: {beads} can hardly be right.")
        return self._add(opened, Recounted(step, since, beads - planned))

    def note(self, opened: OpenPiece, text: str, step: int | None = None) -> OpenPiece:
        """A note at step `step` (none: the present one)."""
        return self._add(opened, Noted(opened.piece.done if step is None else step, text))

    def jump(self, opened: OpenPiece, to: int) -> OpenPiece:
        """Steps up to `to` count as made, later ones as taken back. A jump to where the work stands is none."""
        if to == opened.piece.done and opened.piece.state == "under way":
            return opened
        return self._add(opened, Jumped(to))

    def teaching(self, opened: OpenPiece, length_mm: float | None, left_mm: float | None = None) -> Teaching | None:
        """What the piece would teach its cord card, ended so; None where it has none, or nothing was measured."""
        card = self.card(opened.plan.cord.card) if opened.plan.cord.card else None
        if card is None or (length_mm is None and left_mm is None and not opened.piece.readings):
            return None
        return teaching(opened, card, length_mm, left_mm)

    def finish(
        self,
        opened: OpenPiece,
        length_mm: float | None = None,
        left_mm: float | None = None,
        taught: Teaching | None = None,
    ) -> OpenPiece:
        """The piece is finished, at that real length, with so much free cord left of one layer, mm; `taught`: what its
        card learns. Raises NotPossible while steps are left."""
        left = opened.piece.total_steps - opened.piece.done
        if left and opened.piece.state == "under way":
            raise NotPossible(f"{left} steps are left to make." if left > 1 else "One step is left to make.")
        return self._add(opened, finished_event(length_mm, left_mm, taught))

    def abandon(self, opened: OpenPiece, reason: str = "") -> OpenPiece:
        """The piece is given up; its journal stays."""
        return self._add(opened, Abandoned(reason))

    def _add(self, opened: OpenPiece, *events: Event) -> OpenPiece:
        if self._lock is not None and self._lock.piece_id == opened.id and self._lock.take() == "elsewhere":
            raise InOtherHands("Another window has this piece in hand: nothing was written.")
        at = self._now()
        try:
            new, outlook = opened, None
            for event in events:
                new = after_event(new, event, at)
            forecast_changes = any(isinstance(event, CHANGES_THE_FORECAST) for event in events)
            if forecast_changes and (not self._forecasts_wait or self.forecasts.costs_little(new)):
                outlook = self.suppose(new, new.piece)
                new = replace(new, warning=warning_of(outlook))
            self._store.append(opened.id, opened.revision + 1, events, at, Summary.of(new.piece, new.warning))
        except NotConfirmed:  # it may be stored: the next look reads the journal anew
            self._looked.pop(opened.id, None)
            raise
        except (Stale, NotPossible) as error:
            current = self._caught_up(opened)
            if current.revision == opened.revision:
                raise
            raise Stale(
                f"The piece has moved on: {current.piece.done} of {current.piece.total_steps} steps are made now. "
                "Nothing was written; look again."
            ) from error
        self._latest[new.id] = new.revision
        if outlook is not None:  # kept only now: had it not been stored, another event would bear its number
            self.forecasts.keep(new, outlook)
        return new

    # -- what it means ------------------------------------------------------------------------------------------------

    def outlook(self, opened: OpenPiece) -> Outlook:
        """What is to be expected of the piece as it stands."""
        return self.forecasts.outlook(opened)

    def suppose(self, opened: OpenPiece, piece: Piece) -> Outlook:
        """What would be expected of the piece if it stood so: for readings that are typed but not taken yet."""
        return self.forecasts.suppose(opened, piece)

    def let_forecasts_wait(self) -> None:
        """From now on an event is stored at once, though its forecast takes long: see `remember_warning`."""
        self._forecasts_wait = True

    def remember_warning(self, opened: OpenPiece, outlook: Outlook) -> OpenPiece:
        """The piece with the word of warning that its outlook gives, put on the bench where it is another one."""
        word = warning_of(outlook)
        if word == opened.warning:
            return opened
        with suppress(WorkshopError):  # whoever opens the piece next puts it right
            self._store.set_warning(opened.id, opened.revision, word)
        return replace(opened, warning=word)

    def pace(self, opened: OpenPiece) -> Pace:
        """How fast it goes, and how long the rest may take."""
        return pace(opened.confirmed_at, opened.piece.total_steps - opened.piece.done)

    def journal(self, opened: OpenPiece) -> tuple[DatedEvent, ...]:
        """The story of the piece: every event with its time."""
        return self._store.journal(opened.id)

    def fault(self, opened: OpenPiece) -> Iterator[tuple[DatedEvent, Plan]]:
        """Every event with the plan as it was then: what is left may have been changed, and changed back."""
        first = opened.first_plan or opened.plan
        plan, piece = first, NOT_BEGUN
        for entry in self.journal(opened):
            before, piece = piece, after(piece, entry.event)
            if piece.changes != before.changes:
                from companion.core.plan.replan import changed_plan

                plan = changed_plan(first, piece.changes)
            yield entry, plan

    def design_differs(self, opened: OpenPiece) -> bool:
        """Whether the design file is there and says something else than when the piece began."""
        digest = digest_of(Path(opened.design_path))
        return bool(digest) and digest != opened.design_digest

    def close(self) -> None:
        """Let the piece in hand and the store go."""
        self.let_go()
        self._store.database.close()


def open_at(folder: Path | None = None) -> Workshop:
    """The workshop on the user's own data folder, or on the one given. Nothing is opened or made yet."""
    from secrets import token_hex

    def now() -> datetime:
        return datetime.now(UTC)

    return Workshop(Store((folder or data_folder()) / DATABASE, lambda: token_hex(16), now), now)
