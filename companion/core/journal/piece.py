"""A piece as it stands. `companion.core.journal.fold` makes it from the events of its journal."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from companion.core.journal.events import Changed, CutEntered, Event, Measured, Noted, Recounted

State = Literal["under way", "finished", "abandoned"]
HISTORY = ("act", "before", "later")  # those fields of a piece: nothing of how it stands
STATE_WORDS: dict[State, str] = {"under way": "under way", "finished": "finished", "abandoned": "put away"}


class Reading(Struct, frozen=True):
    """A reading of a piece. `counts`: False once the maker has taken it out."""

    measured: Measured
    counts: bool


class Move(Struct, frozen=True):
    """What undo can take back: a run of confirms (`stepwise`), one jump, one change of what is left, or one join.

    For a jump, `put_aside` holds the readings that it set aside, each with its place (from 0) among all readings of the
    piece; `counted`: what had been counted before it; `moved`: whether it moved readings to other steps.
    """

    start: int
    end: int
    stepwise: bool
    put_aside: tuple[tuple[int, Reading], ...] = ()
    counted: tuple[Recounted, ...] = ()
    steps_before: int | None = None  # of a change: how many steps the piece had before it
    join: bool = False
    moved: bool = False


class Join(Struct, frozen=True):
    """A join that still holds. `before`: readings of its step that were taken before it."""

    step: int
    added_mm: float
    before: tuple[Measured, ...]


class Piece(Struct, frozen=True, eq=False):
    """A piece as it stands. `readings` holds those that count, in the order they were taken; `out` those that the maker
    has taken out, each with its place (from 0) among all of them.

    `act` is the latest thing the maker did to it, `before` the piece before that, and `later` the piece before the
    latest undo: undoing walks back along them, redoing forward. They are not part of how the piece stands.
    """

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
    out: tuple[tuple[int, Measured], ...] = ()
    counted: tuple[Recounted, ...] = ()  # the counts that stand; a later count of the same steps replaces an earlier
    act: Event | None = None
    before: Piece | None = None
    later: Piece | None = None

    def __eq__(self, other: object) -> bool:
        return self._standing() == other._standing() if isinstance(other, Piece) else NotImplemented

    def __hash__(self) -> int:
        return hash(tuple(self._standing().values()))

    def __repr__(self) -> str:
        return f"Piece({', '.join(f'{name}={value!r}' for name, value in self._standing().items())})"

    def _standing(self) -> dict[str, object]:
        """Everything about the piece except how it came to be so."""
        return {name: getattr(self, name) for name in self.__struct_fields__ if name not in HISTORY}

    @property
    def all_readings(self) -> tuple[Reading, ...]:
        """All readings, those taken out too, in the order they were taken."""
        out, counting = dict(self.out), iter(self.readings)
        places = range(len(self.readings) + len(self.out))
        return tuple(Reading(out[n], False) if n in out else Reading(next(counting), True) for n in places)

    @property
    def left_behind(self) -> tuple[Measured, ...]:
        """The readings that jumps have set aside: they belong to steps that were taken back."""
        return tuple(reading.measured for move in self.moves for _, reading in move.put_aside)

    def cut_mm(self, cord: int) -> float | None:
        """The length really cut for that cord of the plan (from 0), mm; None if the maker did not say."""
        return next((cut.length_mm for cut in self.cuts if cut.cord == cord), None)


NOT_BEGUN = Piece()
