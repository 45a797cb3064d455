"""What the maker does to a piece, one method each.

Each is one event, one transaction, against the piece as it was last seen: when a method returns, the event is on disk;
when it raises, nothing was written.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, reduce
from typing import TYPE_CHECKING

from msgspec.structs import replace

from companion.core.journal.events import (
    Abandoned,
    Changed,
    Confirmed,
    CutEntered,
    Event,
    Finished,
    Joined,
    Jumped,
    Measured,
    Noted,
    PutBack,
    ReadingKind,
    Recounted,
    RedoneAct,
    Renamed,
    TakenOut,
    TakenUp,
    Undone,
    UndoneAct,
)
from companion.core.journal.names import reopening
from companion.core.journal.piece import Piece, Reading
from companion.core.plan.leftover import tails_trimmed
from companion.core.values.errors import NotPossible, OpenElsewhere, Stale
from companion.storage.kept import Holder
from companion.storage.pieces import Store
from companion.workshop import parts
from companion.workshop.changes import after_event
from companion.workshop.open_piece import OpenPiece, warning_of
from companion.workshop.pieces import Pieces
from companion.workshop.results import Teaching

if TYPE_CHECKING:  # the types of what is loaded only when it is needed
    from companion.core.forecast.outlook import Outlook
    from companion.core.remedies.remedy import Remedy
    from companion.storage.piece_lock import PieceLock
    from companion.workshop.forecasts import Forecasts

MOST_BEADS_OVER = 10  # more than twice the planned beads and these is a slip of the finger
# A forecast does not hang on a confirm, so a step costs none.
CHANGES_THE_FORECAST = (
    Measured,
    TakenOut,
    PutBack,
    Recounted,
    Changed,
    Joined,
    CutEntered,
    Undone,
    UndoneAct,
    RedoneAct,
    Jumped,
)


class Making:
    """Pieces being made in this process, by whoever has them open."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._now = store.now
        self._pieces = Pieces(store)
        self._lock: PieceLock | None = None  # the piece that a screen has open, or would have
        self._forecasts_wait = False  # whether a forecast that takes long may come after the event it follows from

    # -- which window has it open -------------------------------------------------------------------------------------

    def take_lock(self, opened: OpenPiece, anyway: bool = False) -> Holder:
        """Open the piece for a screen, or see whether it still is: open "here", or "elsewhere" in another window, which
        `anyway` takes it from; "nowhere" on a system or folder that keeps no locks. From now on nothing is written to
        it from here while it is open elsewhere. A piece that was open before is let go.
        """
        if self._lock is None or self._lock.piece_id != opened.id:
            self.let_go()
            self._lock = parts.piece_lock.PieceLock(self._store.path.parent, opened.id)
        return self._lock.take_over() if anyway else self._lock.take()

    def let_go(self) -> None:
        """No piece is open here any more."""
        if self._lock is not None:
            self._lock.let_go()
            self._lock = None

    # -- what the maker does ------------------------------------------------------------------------------------------

    def confirm(self, opened: OpenPiece, step: int | None = None) -> OpenPiece:
        """The present step is made. `step`: the one the maker means, where that is known.

        Raises Stale, NotStored or NotPossible: then it does not count.
        """
        return self._add(opened, Confirmed(opened.piece.done + 1 if step is None else step))

    def undo(self, opened: OpenPiece) -> OpenPiece:
        """Undo the latest act, whatever it was. Raises NotPossible where nothing is done yet."""
        return self._add(opened, UndoneAct())

    def redo(self, opened: OpenPiece) -> OpenPiece:
        """Do the act again that was undone last. Raises NotPossible where there is none."""
        return self._add(opened, RedoneAct())

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
        """Several readings, all of them or none. Raises NotPossible for leftover cord once the tails are trimmed."""
        if any(one.kind == "free" and self.is_trimmed(opened, one.step) for one in readings):
            from companion.core.words.finish_words import TAILS_TRIMMED  # few try

            raise NotPossible(TAILS_TRIMMED)
        return self._add(opened, *readings)

    def is_trimmed(self, opened: OpenPiece, step: int | None = None) -> bool:
        """Whether the tails are trimmed by the end of that step (none: the last one made), so that no leftover cord can
        be measured."""
        at = opened.piece.done if step is None else step
        return at <= opened.plan.total_steps and tails_trimmed(opened.plan, at)

    def withdraw(self, opened: OpenPiece) -> OpenPiece:
        """Take out the latest reading that counts. Raises NotPossible where there is none."""
        counting = [number for number, one in enumerate(opened.piece.all_readings, start=1) if one.counts]
        if not counting:
            raise NotPossible("There is no reading to take out.")
        return self.take_out(opened, counting[-1])

    def take_out(self, opened: OpenPiece, number: int) -> OpenPiece:
        """The reading of that number, from 1 in the order in which they were taken, counts no more. Raises NotPossible
        where there is none, or it is taken out already."""
        return self._add(opened, TakenOut(number, _reading(opened, number).measured))

    def put_back(self, opened: OpenPiece, number: int) -> OpenPiece:
        """A reading that was taken out counts again. Raises NotPossible where there is none, or it counts already."""
        return self._add(opened, PutBack(number, _reading(opened, number).measured))

    def turn_reading(self, opened: OpenPiece, number: int) -> OpenPiece:
        """Take a reading out, or put it back where it is taken out. Raises NotPossible where there is none."""
        counts = _reading(opened, number).counts
        return self.take_out(opened, number) if counts else self.put_back(opened, number)

    def choose(self, opened: OpenPiece, remedy: Remedy) -> OpenPiece:
        """Go on as that remedy says: what is left of the piece is another from here on, or the work goes back to where
        it went wrong; what only the hands do is noted. Undone like a step. Joining new cord needs its length: see
        `join`."""
        if remedy.join:
            raise NotPossible("To join new cord on, say how much each cord gains.")
        if remedy.back_to is not None:
            return self.jump(opened, remedy.back_to)
        if remedy.cut is not None:
            return self._add(opened, remedy.cut)
        if remedy.advice:
            return self.note(opened, f"{remedy.what}.", opened.piece.done)
        plan = parts.replan.changed_plan(opened.plan, (remedy.event(0),))
        if not parts.replan.same_steps_made(opened.plan, plan, opened.piece.done):
            raise NotPossible("That would change steps that are done.")
        return self._add(opened, remedy.event(plan.total_steps))

    def join(self, opened: OpenPiece, added_mm: float, typed: str) -> OpenPiece:
        """New cord is joined on here: so much more a layer than there was, mm."""
        return self._add(opened, Joined(opened.piece.done, added_mm, typed))

    def recount(
        self, opened: OpenPiece, step: int | None = None, since: int = 0, beads: int | None = None
    ) -> OpenPiece:
        """The beads of the steps after `since` up to `step` (none: the last one made) were counted: so many, or as many
        as the plan says."""
        step = opened.piece.done if step is None else step
        if beads is None or not 0 <= since <= step <= opened.piece.done:  # the journal says what is wrong
            return self._add(opened, Recounted(step, since))
        planned = parts.counting.stretch(opened.plan, since, step).beads
        if not 0 <= beads <= 2 * planned + MOST_BEADS_OVER:
            raise NotPossible(f"Expected {planned} beads. {beads} looks wrong.")
        return self._add(opened, Recounted(step, since, beads - planned))

    def set_screen(self, opened: OpenPiece, right: Jumped) -> OpenPiece:
        """The screen was ahead of the work or behind it, as a count of beads has shown: it is set right so."""
        return self._add(opened, right)

    def note(self, opened: OpenPiece, text: str, step: int | None = None) -> OpenPiece:
        """A note at step `step` (none: the present one)."""
        return self._add(opened, Noted(opened.piece.done if step is None else step, text))

    def jump(self, opened: OpenPiece, to: int) -> OpenPiece:
        """Steps up to `to` count as made, later ones as taken back. A jump to where you are is none."""
        if to == opened.piece.done and opened.piece.state == "under way":
            return opened
        return self._add(opened, Jumped(to))

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
            raise NotPossible(f"{left} steps are left to do." if left > 1 else "One step is left to do.")
        end = parts.teaching.finished(length_mm, left_mm, taught) if taught else Finished(length_mm, left_mm)
        return self._add(opened, end)

    def abandon(self, opened: OpenPiece, reason: str = "") -> OpenPiece:
        """The piece is put away, unfinished; its journal stays."""
        return self._add(opened, Abandoned(reason))

    def take_up(self, opened: OpenPiece) -> OpenPiece:
        """A piece that was put away is under way again. Raises NotPossible for any other."""
        return self._add(opened, TakenUp())

    def reopen(self, opened: OpenPiece) -> OpenPiece:
        """A piece that has ended is under way again, by the name that it has now. Raises NotPossible for any other."""
        if opened.piece.state != "finished":
            return self.take_up(opened)
        return self._add(opened, *reopening(opened.piece, opened.name))

    def rename(self, opened: OpenPiece, name: str) -> OpenPiece:
        """Give the piece another name. Raises NotPossible for what can't be a name, NameTaken for
        another piece's."""
        fault = "It has that name already." if name == opened.name else parts.name_fault.name_fault(name)
        if fault:
            raise NotPossible(fault)
        return self._add(opened, Renamed(name, opened.name))

    def _add(self, opened: OpenPiece, *events: Event) -> OpenPiece:
        if self._lock is not None and self._lock.piece_id == opened.id and self._lock.take() == "elsewhere":
            raise OpenElsewhere("This piece is open in another window, so nothing was saved.")
        at = self._now()
        try:
            new = reduce(lambda piece, event: after_event(piece, event, at), events, opened)
            new, outlook = self._foreseen(new, events)
            self._pieces.append(new, events, at, new.name if new.name != opened.name else "")
        except (Stale, NotPossible) as error:
            self._pieces.raise_if_moved_on(opened, error)
            raise
        if outlook is not None:  # kept only now: had it not been stored, another event would bear its number
            self.forecasts.keep(new, outlook)
        return new

    def _foreseen(self, new: OpenPiece, events: Sequence[Event]) -> tuple[OpenPiece, Outlook | None]:
        """The piece with its word of warning, and the outlook; None where it stays as it was, or takes too long."""
        if not any(isinstance(event, CHANGES_THE_FORECAST) for event in events):
            return new, None
        if self._forecasts_wait and not self.forecasts.costs_little(new):
            return new, None
        outlook = self.suppose(new, new.piece)
        return replace(new, warning=warning_of(outlook)), outlook

    # -- what is to be expected of it ---------------------------------------------------------------------------------

    @cached_property
    def forecasts(self) -> Forecasts:
        """What is to be expected of the piece that is open."""
        return parts.forecasts.Forecasts()

    def outlook(self, opened: OpenPiece) -> Outlook:
        """What is to be expected of the piece as it stands."""
        return self.forecasts.outlook(opened)

    def set_aside(self, opened: OpenPiece) -> tuple[Measured, ...]:
        """The readings of the piece that others contradict."""
        return self.outlook(opened).set_aside if opened.piece.readings else ()

    def suppose(self, opened: OpenPiece, piece: Piece) -> Outlook:
        """What would be expected of the piece if it stood so: for readings that are typed but not taken yet."""
        return self.forecasts.suppose(opened, piece)

    def let_forecasts_wait(self) -> None:
        """From now on an event is stored at once, though its forecast takes long: see `remember_warning`."""
        self._forecasts_wait = True


def _reading(opened: OpenPiece, number: int) -> Reading:
    """The reading of that number, whether it counts or not. Raises NotPossible."""
    readings = opened.piece.all_readings
    if not readings:
        raise NotPossible("There are no readings yet.")
    if not 1 <= number <= len(readings):
        raise NotPossible(f"There is no reading {number}. The last one is {len(readings)}.")
    return readings[number - 1]
