"""What the readings mean: the values that a forecast gives. Lengths in mm; chances from 0 to 1."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from companion.core.journal.events import Measured
from companion.core.values.expected import Expected

Verdict = Literal["no target", "on plan", "watch", "off", "recount", "measure again"]
# "short to hold": it reaches the last knot, but what is left is little to hold, or to close with.
CordVerdict = Literal["enough", "short to hold", "scant", "runs out"]
USUAL_SDS = 2.0  # standard deviations; our own choice
WORSE: tuple[CordVerdict, ...] = ("enough", "short to hold", "scant", "runs out")


class Fault(Struct, frozen=True):
    """A kind of fault that may have happened: its chance, and between which steps of one entry it most likely began.

    `detail`: the bead's key or the knot's kind. Of a misreading it is "strand" or "free", `off_mm` says by how much the
    reading would be too long, and `reading` which one it is: its place (from 0) among those of `observations.read_of`.
    `settled`: later readings were taken there or further on, so to measure there again would tell nothing new.
    """

    kind: str
    p: float
    entry: int
    from_step: int
    to_step: int
    detail: str = ""
    off_mm: float = 0.0
    reading: int | None = None
    settled: bool = False


class ReadingCheck(Struct, frozen=True):
    """A strand reading beside what was expected before it was taken: it is `off_mm` longer (below 0: shorter). `sds`:
    the same in standard deviations, those of ruler, knots and beads together."""

    reading: Measured
    off_mm: float
    sds: float

    @property
    def is_usual(self) -> bool:
        """Whether it is near enough to what was expected to be nothing unusual."""
        return abs(self.sds) <= USUAL_SDS


class CordCheck(Struct, frozen=True):
    """Whether the cord of one entry is enough. `p_run_out`: the chance that it ends before the last knot is tied;
    `p_short_to_hold`: that it reaches that knot, but leaves too little to hold, or to close with.

    `step`, `bead` (of the entry, counted from 1 as it is worked): where it would end if it does, None where that is
    unlikely; `short_mm`: how much is missing per layer, holding and closing counted, at the chosen risk; 0 when none.
    """

    verdict: CordVerdict
    p_run_out: float
    step: int | None
    short_mm: float
    p_short_to_hold: float = 0.0
    bead: int | None = None

    @property
    def p_short(self) -> float:
        """The chance that it is too short for anything: for the last knot, for the hands, or for the closure."""
        return min(1.0, self.p_run_out + self.p_short_to_hold)


class EntryOutlook(Struct, frozen=True):
    """One entry of the plan: strand and free cord (per layer) after its last made step, the strand's end, the cord.

    `done`: how many of its steps are made. `strand_end`: as it is when the last knot is tied. `free_end`: free cord
    after its last step, the end closure made.
    """

    done: int
    strand_now: Expected
    free_now: Expected
    strand_end: Expected
    free_end: Expected
    cord: CordCheck


class Outlook(Struct, frozen=True):
    """The whole piece.

    `finished`: its length end to end when closed, once its knots have settled; `p_in_tolerance`: the chance that it is
    then within tolerance, None without a target. `knot_ratio`: today's knots against the cord's figures (1.06: they run
    six per cent longer), None before any reading. `next_reading_step`: the piece's step after which to measure next,
    None for no more.

    `p_fault`: the chance that something has gone wrong already; `faults`: what it may be, the likeliest first.
    `set_aside`: the readings that later ones contradict; nothing here rests on them. `checks`: the strand readings that
    it does rest on, in the order in which they were taken. `doubtful`: the reading that is likeliest to be wrong.
    """

    finished: Expected
    p_in_tolerance: float | None
    verdict: Verdict
    entries: tuple[EntryOutlook, ...]
    knot_ratio: Expected | None
    next_reading_step: int | None
    p_fault: float = 0.0
    faults: tuple[Fault, ...] = ()
    set_aside: tuple[Measured, ...] = ()
    checks: tuple[ReadingCheck, ...] = ()
    doubtful: Measured | None = None

    @property
    def newest(self) -> ReadingCheck | None:
        """The latest strand reading, None before the first."""
        return self.checks[-1] if self.checks else None

    @property
    def misread(self) -> Fault | None:
        """That a reading was misread, None where none can have been."""
        return next((fault for fault in self.faults if fault.kind == "misread"), None)

    @property
    def doubted(self) -> str:
        """Which kind of reading is likeliest to be wrong: "strand", "free", or "" for none."""
        return self.misread.detail if self.misread else ""

    @property
    def worst_cord(self) -> int:
        """The entry (from 0) whose cord is in the greatest danger: by its verdict, then by its chances."""
        cords = [entry.cord for entry in self.entries]
        worse = [(WORSE.index(cord.verdict), cord.p_run_out, cord.p_short_to_hold) for cord in cords]
        return max(range(len(cords)), key=worse.__getitem__)
