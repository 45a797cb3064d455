"""What can happen to a piece: the events that its journal stores. `companion.core.journal.fold` applies them."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from companion.core.values.design import KnotKind

ReadingKind = Literal["strand", "free"]


MOST_NOTE = 500  # columns of a note, or of the reason why a piece is put away


NOWHERE = -1  # no step of a piece


class Started(Struct, frozen=True):
    """The piece was begun. It has so many steps."""

    total_steps: int


class CutEntered(Struct, frozen=True):
    """How long the maker really cut one cord, the whole of it, mm. `cord`: which of the plan's cuts, from 0; `typed`:
    what she typed."""

    cord: int
    length_mm: float
    typed: str


class Confirmed(Struct, frozen=True):
    """Step `step` of the piece (from 1) is done."""

    step: int


class Undone(Struct, frozen=True):
    """The latest step marked done, or the latest jump, was undone: the piece stands after step `back_to` again. Only
    journals of earlier versions have this; today an undo is an `UndoneAct`."""

    back_to: int


class UndoneAct(Struct, frozen=True):
    """The latest act was undone, whatever it was: the piece stands as it did before it."""


class RedoneAct(Struct, frozen=True):
    """The act that was undone last was redone."""


class Jumped(Struct, frozen=True):
    """The count of steps was set: steps up to `to` count as done, later ones as not done.

    A count of beads may have shown that the screen was ahead of the work, or behind it. `moved` then says, for the
    readings, joins and counts taken since, after which step each stood and after which it belongs (NOWHERE if no step
    ends there). `counted`: the beads of the steps after the first, up to the second, by their new numbers, are as many
    as the plan says.
    """

    to: int
    moved: tuple[tuple[int, int], ...] = ()
    counted: tuple[int, int] | None = None


class Measured(Struct, frozen=True):
    """A reading after step `step` of the piece, mm: of the strand, from the first element of its entry, or of the
    leftover cord, for each layer. `ruler_step_mm`: the smallest division of the ruler."""

    kind: ReadingKind
    step: int
    length_mm: float
    typed: str
    ruler_step_mm: float = 1.0


class Withdrawn(Struct, frozen=True):
    """The latest reading that counts was taken out. Only journals of earlier versions have this; today it is a
    `TakenOut`."""


class TakenOut(Struct, frozen=True):
    """The maker took out a reading that she had misread or mistyped: it no longer counts. `number`: which of all the
    piece's readings, from 1, in the order they were taken; `reading`: the reading itself."""

    number: int
    reading: Measured


class PutBack(Struct, frozen=True):
    """A reading that was taken out counts again. `number` and `reading` are those of its `TakenOut`."""

    number: int
    reading: Measured


class Changed(Struct, frozen=True):
    """The maker chose to change what is left: after the first `made` elements of an entry (from 0), `rest` is what
    remains of it, in element codes, and `closure_mm` is added to its closure. `total_steps`: of the whole piece from
    now on; `words`: the choice as she read it.

    `more`: other entries that change along with it, each as (entry, made, rest). `end_closure`: the closure that the
    entry now ends with, "" if it stays the same.
    """

    entry: int
    made: int
    rest: tuple[str | float, ...]
    closure_mm: float
    total_steps: int
    words: str
    more: tuple[tuple[int, int, tuple[str | float, ...]], ...] = ()
    end_closure: str = ""


class Joined(Struct, frozen=True):
    """New cord was joined on after step `step` of the piece. Each layer gained `added_mm`, the overlap not counted."""

    step: int
    added_mm: float
    typed: str


class Recounted(Struct, frozen=True):
    """The maker counted the beads of the steps after `since`, up to `step` of the piece. `beads`: how many more there
    are than the plan says; 0 if as many, negative if fewer."""

    step: int
    since: int = 0
    beads: int = 0


class Noted(Struct, frozen=True):
    """A note. `step`: the last step that was done when it was written."""

    step: int
    text: str


Taught = tuple[KnotKind, int, float | None, float | None, float | None, float | None]


class Finished(Struct, frozen=True):
    """The piece was finished. `length_mm`: its real length; `left_mm`: the cord left over of one layer of the last
    entry; None if the maker did not say.

    `card`: the cord card that learns from the piece, "" for none. `lessons`: what it learns, for each kind of knot: how
    many there were, their take-up and its standard deviation, their length and its standard deviation, mm.
    """

    length_mm: float | None = None
    left_mm: float | None = None
    card: str = ""
    lessons: tuple[Taught, ...] = ()


class Abandoned(Struct, frozen=True):
    """The piece was put away unfinished."""

    reason: str = ""


class TakenUp(Struct, frozen=True):
    """A piece that was put away was taken up again."""


class Renamed(Struct, frozen=True):
    """The piece was given another name. `was`: the name before."""

    name: str
    was: str


Event = (
    Started
    | CutEntered
    | Confirmed
    | Undone
    | UndoneAct
    | RedoneAct
    | Jumped
    | Measured
    | Withdrawn
    | TakenOut
    | PutBack
    | Changed
    | Joined
    | Recounted
    | Noted
    | Finished
    | Abandoned
    | TakenUp
    | Renamed
)
