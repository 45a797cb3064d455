"""What can happen to a piece: the events that its journal keeps. `companion.core.journal.piece` folds them."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from companion.core.values.design import KnotKind

ReadingKind = Literal["strand", "free"]


MOST_NOTE = 500  # columns of a note, or of the reason why a piece is put away


NOWHERE = -1  # no step of a piece


class Started(Struct, frozen=True):
    """The piece began, of so many steps."""

    total_steps: int


class CutEntered(Struct, frozen=True):
    """One cord as really cut, whole, mm; `cord` counts the plan's cuts from 0; `typed` as the maker wrote it."""

    cord: int
    length_mm: float
    typed: str


class Confirmed(Struct, frozen=True):
    """Step `step` of the piece (from 1) is made."""

    step: int


class Undone(Struct, frozen=True):
    """The latest confirm or jump is taken back; the piece stands after step `back_to` again. Journals of earlier
    versions have it; what is undone now is an `UndoneAct`."""

    back_to: int


class UndoneAct(Struct, frozen=True):
    """The latest act is undone, whatever it was: the piece stands as it did before it."""


class RedoneAct(Struct, frozen=True):
    """The act that was undone last is done again."""


class Jumped(Struct, frozen=True):
    """Steps up to `to` count as made, later ones as taken back.

    Where a count of beads has shown that the screen was ahead of the work or behind it: `moved`, after which steps
    readings, joins and counts stood since then and where they belong, NOWHERE if no step ends there; `counted`: the
    beads of the steps after the first up to the second, as they are numbered now, are as many as the plan says.
    """

    to: int
    moved: tuple[tuple[int, int], ...] = ()
    counted: tuple[int, int] | None = None


class Measured(Struct, frozen=True):
    """A ruler reading after step `step` of the piece: the strand from its entry's first element, or free cord per
    layer; mm. `ruler_step_mm`: the least division of the ruler it was read on."""

    kind: ReadingKind
    step: int
    length_mm: float
    typed: str
    ruler_step_mm: float = 1.0


class Withdrawn(Struct, frozen=True):
    """The latest reading that counts is taken out. Journals of earlier versions have it; what is taken out now is a
    `TakenOut`."""


class TakenOut(Struct, frozen=True):
    """A reading is taken out: it was misread, or typed wrong, and no longer counts. `number`: from 1, among those of
    the piece, in the order in which they were taken; `reading`: that one."""

    number: int
    reading: Measured


class PutBack(Struct, frozen=True):
    """A reading that was taken out counts again. `number`, `reading`: as it was taken out."""

    number: int
    reading: Measured


class Changed(Struct, frozen=True):
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


class Joined(Struct, frozen=True):
    """New cord was joined on after step `step` of the piece: `added_mm` more a layer than there was, overlap apart."""

    step: int
    added_mm: float
    typed: str


class Recounted(Struct, frozen=True):
    """The maker has counted the beads of the steps after `since` up to `step` of the piece: `beads` more than the plan
    says, 0: as many, below 0: fewer."""

    step: int
    since: int = 0
    beads: int = 0


class Noted(Struct, frozen=True):
    """A note, at the step that was the last one made."""

    step: int
    text: str


Taught = tuple[KnotKind, int, float | None, float | None, float | None, float | None]


class Finished(Struct, frozen=True):
    """`length_mm`: the real finished length; `left_mm`: the free cord left of one layer of the last entry; None where
    the maker did not say.

    `card`: the cord card that learns from the piece, "" for none; `lessons`: what it learns, for each kind of knot: how
    many there were, take-up and its standard deviation, length and its standard deviation, mm.
    """

    length_mm: float | None = None
    left_mm: float | None = None
    card: str = ""
    lessons: tuple[Taught, ...] = ()


class Abandoned(Struct, frozen=True):
    """The piece is put away, unfinished."""

    reason: str = ""


class TakenUp(Struct, frozen=True):
    """A piece that was put away is under way again."""


class Renamed(Struct, frozen=True):
    """The piece has another name; `was`: the one before."""

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
