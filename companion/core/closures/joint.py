"""Where a closure meets a strand: all that its figures and its sentences depend on."""

from __future__ import annotations

from msgspec import Struct

from companion.core.cord.cord import Cord
from companion.core.cord.holes import roomy_hole_mm
from companion.core.values.design import KnotKind
from companion.core.values.measures.show_lengths import DisplayUnit, show_up
from companion.core.values.text import count_word


class EndFigures(Struct, frozen=True):
    """One end, mm: what it adds to the finished length; the cord it needs and the tail it leaves, of each cord."""

    length_mm: float
    cord_mm: float
    tail_mm: float


class Finding(Struct, frozen=True):
    """Something to lay ready for a closure. `size_mm`: of a button, bead or bore, where the design gives it; `hole_mm`:
    the least hole that its cords pass easily."""

    name: str
    count: int
    size_mm: float | None = None
    hole_mm: float | None = None


class EndStep(Struct, frozen=True):
    """One step of an end in words. `trims`: it cuts the tails off, so what is left of the cord is measured before;
    `closes`: it is the last one that takes cord."""

    text: str
    trims: bool = False
    closes: bool = False


class Joint(Struct, frozen=True):
    """One end of one strand. `beads`: the names of its last beads, the outermost first; `knots_there`: how many of the
    places where this closure ties knots of its own have one from the layout already; `tail_mm`: the tail planned.

    `strand`, `strands`: which strand (from 1) of how many end in one clasp. `finding`, `size_mm`: as the design says.
    `from_middle`: the strand is worked from its middle; `first_side`: this end is made first of the two.
    """

    cord: Cord
    unit: DisplayUnit
    tail_mm: float = 0.0
    beads: tuple[str, ...] = ()
    knots_there: int = 0
    finding: str = ""
    size_mm: float | None = None
    strand: int = 1
    strands: int = 1
    from_middle: bool = False
    first_side: bool = False
    closed_mm: float = 0.0  # what the whole piece measures when it is closed

    @property
    def layers(self) -> int:
        """How many cords lie side by side."""
        return self.cord.layers

    @property
    def tail(self) -> str:
        """The tail, rounded up to a length that is easy to read off a ruler."""
        return show_up(self.tail_mm, self.unit)

    @property
    def cords(self) -> str:
        """What is tied: "the cord", "both cords", "all three cords"."""
        if self.layers == 1:
            return "the cord"
        return "both cords" if self.layers == 2 else f"all {count_word(self.layers)} cords"

    @property
    def tool(self) -> str:
        """What the knots are worked with."""
        return self.cord.tool

    @property
    def last_strand(self) -> bool:
        """Whether this is the last strand to be made."""
        return self.strand == self.strands

    def hole_mm(self, passes: int = 2) -> float:
        """A hole that the cords pass easily so many times."""
        return roomy_hole_mm(self.cord.diameter_mm, passes * self.layers)

    def in_knot_mm(self, kind: KnotKind) -> float:
        """The cord in one knot, length and take-up together, mm of each cord."""
        figures = self.cord.knot(kind)
        return figures.length_mm + figures.take_up_mm

    def knot_mm(self, kind: KnotKind) -> float:
        """The length of one knot along the strand, mm."""
        return self.cord.knot(kind).length_mm
