"""What can happen to a piece, and the piece as it stands: a fold over its events.

Undo is an event: it takes back the latest confirm or jump that still stands, or opens an ended piece again. A reading
belongs to the step it was taken after: once that step is taken back it no longer counts, even when the step is made
again, for the count may have been wrong when it was taken. Only undoing the very jump that put it aside brings it back.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import reduce
from typing import Literal

from companion.core.values.design import KnotKind

ReadingKind = Literal["strand", "free"]
State = Literal["under way", "finished", "abandoned"]


@dataclass(frozen=True, slots=True)
class Started:
    """The piece began, of so many steps."""

    total_steps: int


@dataclass(frozen=True, slots=True)
class CutEntered:
    """One cord as really cut, whole, mm; `cord` counts the plan's cuts from 0; `typed` as the maker wrote it."""

    cord: int
    length_mm: float
    typed: str


@dataclass(frozen=True, slots=True)
class Confirmed:
    """Step `step` of the piece (from 1) is made."""

    step: int


@dataclass(frozen=True, slots=True)
class Undone:
    """The latest confirm or jump is taken back; the piece stands after step `back_to` again."""

    back_to: int


@dataclass(frozen=True, slots=True)
class Jumped:
    """Steps up to `to` count as made, later ones as taken back."""

    to: int


@dataclass(frozen=True, slots=True)
class Measured:
    """A ruler reading after step `step` of the piece: the strand from its entry's first element, or free cord per
    layer; mm. `ruler_step_mm`: the least division of the ruler it was read on."""

    kind: ReadingKind
    step: int
    length_mm: float
    typed: str
    ruler_step_mm: float = 1.0


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """The latest reading that counts is taken back: it was misread, or typed wrong."""


@dataclass(frozen=True, slots=True)
class Changed:
    """The maker goes on otherwise: after `made` elements of an entry (from 0), `rest` is what is left of it, in element
    codes; `closure_mm` is added to its closure. `total_steps`: the whole piece's from here on; `words`: the choice.

    `more`: other entries that change with it, each as (entry, made, rest); `end_closure`: the closure that the entry
    ends with from here on, "" where it stays.
    """

    entry: int
    made: int
    rest: tuple[str | float, ...]
    closure_mm: float
    total_steps: int
    words: str
    more: tuple[tuple[int, int, tuple[str | float, ...]], ...] = ()
    end_closure: str = ""


@dataclass(frozen=True, slots=True)
class Joined:
    """New cord was joined on after step `step` of the piece: `added_mm` more a layer than there was, overlap apart."""

    step: int
    added_mm: float
    typed: str


@dataclass(frozen=True, slots=True)
class Recounted:
    """The maker has counted the beads of the steps after `since` up to `step` of the piece: `beads` more than the plan
    says, 0: as many, below 0: fewer."""

    step: int
    since: int = 0
    beads: int = 0


@dataclass(frozen=True, slots=True)
class Noted:
    """A note, at the step that was the last one made."""

    step: int
    text: str


Taught = tuple[KnotKind, int, float | None, float | None, float | None, float | None]


@dataclass(frozen=True, slots=True)
class Finished:
    """`length_mm`: the real finished length; `left_mm`: the free cord left of one layer of the last entry; None where
    the maker did not say.

    `card`: the cord card that learns from the piece, "" for none; `lessons`: what it learns, for each kind of knot: how
    many there were, take-up and its standard deviation, length and its standard deviation, mm.
    """

    length_mm: float | None = None
    left_mm: float | None = None
    card: str = ""
    lessons: tuple[Taught, ...] = ()


@dataclass(frozen=True, slots=True)
class Abandoned:
    reason: str = ""


Event = (
    Started
    | CutEntered
    | Confirmed
    | Undone
    | Jumped
    | Measured
    | Withdrawn
    | Changed
    | Joined
    | Recounted
    | Noted
    | Finished
    | Abandoned
)


class NotPossible(ValueError):
    """An event that does not follow from the piece as it stands; its text is a sentence for the maker."""


@dataclass(frozen=True, slots=True)
class Move:
    """What undo can take back: a run of confirms (`stepwise`), one jump, one change of what is left, or one join.

    `put_aside`: readings that a jump set aside.
    """

    start: int
    end: int
    stepwise: bool
    put_aside: tuple[Measured, ...] = ()
    steps_before: int | None = None  # of a change: how many steps the piece had before it
    join: bool = False


@dataclass(frozen=True, slots=True)
class Join:
    """A join that stands; `before`: readings at its step that were taken before it."""

    step: int
    added_mm: float
    before: tuple[Measured, ...]


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece as it stands. `readings` holds only those that count."""

    total_steps: int = 0
    done: int = 0
    state: State = "under way"
    cuts: tuple[CutEntered, ...] = ()
    moves: tuple[Move, ...] = ()
    readings: tuple[Measured, ...] = ()
    notes: tuple[Noted, ...] = ()
    finished_mm: float | None = None
    changes: tuple[Changed, ...] = ()
    joins: tuple[Join, ...] = ()
    counted: tuple[Recounted, ...] = ()  # what was counted, as far as it stands; a later count of the same steps alone

    def cut_mm(self, cord: int) -> float | None:
        """The length really cut for that cord of the plan (from 0), mm, or None where the maker has not said."""
        return next((cut.length_mm for cut in self.cuts if cut.cord == cord), None)


NOT_BEGUN = Piece()
STATE_WORDS: dict[State, str] = {"under way": "under way", "finished": "finished", "abandoned": "given up"}


def after(piece: Piece, event: Event) -> Piece:
    """The piece after one more event. Raises NotPossible where the event does not follow."""
    if isinstance(event, Undone):
        return _undone(piece, event.back_to)
    if piece.state != "under way":
        raise NotPossible(f"This piece is {STATE_WORDS[piece.state]}: going back opens it again.")
    match event:
        case Started(total_steps=total):
            return replace(piece, total_steps=total)
        case CutEntered(cord=cord):
            return replace(piece, cuts=(*(cut for cut in piece.cuts if cut.cord != cord), event))
        case Confirmed(step=step):
            return _confirmed(piece, step)
        case Jumped(to=to):
            return _jumped(piece, to)
        case Measured():
            return _measured(piece, event)
        case Withdrawn():
            if not piece.readings:
                raise NotPossible("There is no reading to withdraw.")
            return replace(piece, readings=piece.readings[:-1])
        case Changed(total_steps=total):
            move = Move(piece.done, piece.done, stepwise=False, steps_before=piece.total_steps)
            changes = (*piece.changes, event)
            return replace(piece, total_steps=total, changes=changes, moves=(*piece.moves, move))
        case Joined():
            return _joined(piece, event)
        case Recounted():
            return _recounted(piece, event)
        case Noted():
            return replace(piece, notes=(*piece.notes, event))
        case Finished(length_mm=length_mm):
            return replace(piece, state="finished", finished_mm=length_mm)
        case Abandoned():
            return replace(piece, state="abandoned")


def fold(events: Iterable[Event], piece: Piece = NOT_BEGUN) -> Piece:
    """The piece as it stands after these events, begun from `piece`."""
    return reduce(after, events, piece)


def undo_of(piece: Piece) -> Undone:
    """The event that takes back the latest confirm or jump, or opens an ended piece again. Raises NotPossible."""
    if piece.state != "under way":
        return Undone(piece.done)
    if not piece.moves:
        raise NotPossible("Nothing to take back: no step is made yet.")
    last = piece.moves[-1]
    return Undone(last.end - 1 if last.stepwise else last.start)


def _confirmed(piece: Piece, step: int) -> Piece:
    if piece.done == piece.total_steps:
        raise NotPossible("Every step is made already.")
    if step != piece.done + 1:
        raise NotPossible(f"Step {step} is not the present one: {piece.done} of {piece.total_steps} are made.")
    earlier, start = piece.moves, piece.done
    if earlier and earlier[-1].stepwise and earlier[-1].end == piece.done:
        earlier, start = earlier[:-1], earlier[-1].start
    return replace(piece, done=step, moves=(*earlier, Move(start, step, stepwise=True)))


def _undone(piece: Piece, back_to: int) -> Piece:
    if undo_of(piece).back_to != back_to:
        raise NotPossible(f"The piece has moved on since: {piece.done} of {piece.total_steps} are made.")
    if piece.state != "under way":
        return replace(piece, state="under way", finished_mm=None)
    *earlier, last = piece.moves
    if last.join:
        return replace(piece, joins=piece.joins[:-1], moves=tuple(earlier))
    if last.steps_before is not None:
        return replace(piece, total_steps=last.steps_before, changes=piece.changes[:-1], moves=tuple(earlier))
    if last.stepwise and back_to > last.start:
        earlier.append(replace(last, end=back_to))
    standing = tuple(reading for reading in piece.readings if reading.step <= back_to)
    readings, counted = standing + last.put_aside, _still_counted(piece, back_to)
    return replace(piece, done=back_to, moves=tuple(earlier), readings=readings, counted=counted)


def _jumped(piece: Piece, to: int) -> Piece:
    if not 0 <= to <= piece.total_steps:
        raise NotPossible(f"There is no step {to}: this piece has {piece.total_steps}.")
    aside = tuple(reading for reading in piece.readings if reading.step > to)
    standing = tuple(reading for reading in piece.readings if reading.step <= to)
    move = Move(piece.done, to, stepwise=False, put_aside=aside)
    counted = _still_counted(piece, to)
    return replace(piece, done=to, moves=(*piece.moves, move), readings=standing, counted=counted)


def _measured(piece: Piece, reading: Measured) -> Piece:
    if not 0 <= reading.step <= piece.done:
        raise NotPossible(f"Step {reading.step} is not made yet: {piece.done} of {piece.total_steps} are.")
    return replace(piece, readings=(*piece.readings, reading))


def _recounted(piece: Piece, event: Recounted) -> Piece:
    if not 0 <= event.step <= piece.done:
        raise NotPossible(f"Step {event.step} is not made yet: {piece.done} of {piece.total_steps} are.")
    if not (0 <= event.since < event.step or event.since == event.step == 0):
        raise NotPossible(f"Step {event.since + 1} comes after step {event.step}: the first of the two is the earlier.")
    others = (one for one in piece.counted if not event.since <= one.since <= one.step <= event.step)
    return replace(piece, counted=(*others, event))


def _still_counted(piece: Piece, made: int) -> tuple[Recounted, ...]:
    """What was counted of the steps up to `made`. A count that was not right stands whole or not at all: nobody knows
    on which side the fault lies."""
    whole = (one for one in piece.counted if one.step <= made)
    cut = (replace(one, step=made) for one in piece.counted if one.since < made < one.step and one.beads == 0)
    return (*whole, *cut)


def _joined(piece: Piece, event: Joined) -> Piece:
    if event.step != piece.done:
        raise NotPossible(f"Cord is joined on where the work stands: {piece.done} of {piece.total_steps} are made.")
    join = Join(event.step, event.added_mm, tuple(r for r in piece.readings if r.step == event.step))
    move = Move(piece.done, piece.done, stepwise=False, join=True)
    return replace(piece, joins=(*piece.joins, join), moves=(*piece.moves, move))
