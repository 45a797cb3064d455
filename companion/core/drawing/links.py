"""The links of a closed piece: its beads, knots and spans of cord in their order, and what closes it. All in mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from msgspec import Struct

from companion.core.drawing.bodies import BodyForm
from companion.core.drawing.strand import KNOT_THICKNESSES, PartKind
from companion.core.picture.colours import Colour, colour_of
from companion.core.picture.marks import marks_of
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.plan.steps import element_mm
from companion.core.values.design import Bead, Element, Knot

DOUBLED = 1.5  # how thick cords that lie side by side look, in diameters of one
USUAL_FINDING_MM = 10.0
_LARGEST_CLASP_MM = 7.0  # across
_LOOP, _SLIDING = 1.5, (8, 4)  # a loop, in widths of what it goes round; a sliding knot, in thicknesses of its cord
# What lies between the first bead and the clasp: its form, its share of that end's closure, and how thick it is, mm;
# of that form None the cord itself.
_BESIDE_A_CLASP: dict[str, tuple[BodyForm | None, float, float]] = {
    "bead tip and clasp": ("round", 0.42, 4.0),
    "French wire and clasp": ("coil", 0.5, 2.0),
    "cord end and clasp": ("tube", 0.55, 4.0),
    "crimp and clasp": ("tube", 0.25, 3.0),
    "knotted to the clasp": (None, 0.3, 0.0),
}
_BENDS_MM = 4.0  # bare cord that is no longer is laid straight
_NEVER_CLOSED = "plain tail"


class Link(Struct, frozen=True):
    """One thing along the cord. `key` and `letter`: a bead's; `colour`: a finding's, where its name says one. Nothing
    is across where nothing lies but the clasp."""

    kind: PartKind
    form: BodyForm
    length_mm: float
    across_mm: float
    key: str = ""
    letter: str = ""
    colour: Colour | None = None


class Chain(Struct, frozen=True):
    """One strand from the middle of its closure round to it again. `clasp`: what lies over that middle; the way is not
    longer for it."""

    links: tuple[Link, ...]
    clasp: tuple[Link, ...]
    cord_mm: float

    @property
    def length_mm(self) -> float:
        """Once round."""
        return sum(link.length_mm for link in self.links)

    @property
    def across_mm(self) -> float:
        """Of its thickest link."""
        return max(link.across_mm for link in (*self.links, *self.clasp))


def chains_of(plan: Plan) -> tuple[Chain, ...]:
    """The strands of a plan, both sides of one that is worked from the middle as one; () where any of them is never
    closed, or has no length."""
    chains = tuple(_chain(plan, entries) for entries in _strands(plan))
    closes = all(_NEVER_CLOSED not in (strand.start_closure, strand.end_closure) for strand in plan.strands)
    return chains if closes and chains and all(chain.length_mm > 0 for chain in chains) else ()


def _strands(plan: Plan) -> Iterator[list[PlannedStrand]]:
    """The entries of each strand: one, or its two sides."""
    entries = list(plan.strands)
    while entries:
        sides = 2 if entries[0].side == "first" else 1
        yield entries[:sides]
        entries = entries[sides:]


def _chain(plan: Plan, entries: Sequence[PlannedStrand]) -> Chain:
    *second, first = reversed(entries)  # the second side is worked from the middle to the strand's start
    elements = [element for side in second for element in reversed(side.elements)] + list(first.elements)
    start_mm, end_mm = (
        (second[0].closure_length_mm, first.closure_length_mm) if second else [first.closure_length_mm / 2] * 2
    )
    start = second[0].end_closure if second else first.start_closure
    links = _links(plan, elements)
    cord_mm = plan.cord.diameter_mm * (1 if plan.cord.layers == 1 else DOUBLED)
    opening, closing = _beside(start, start_mm, cord_mm), _beside(first.end_closure, end_mm, cord_mm)
    clasp = tuple(_clasp(first, start_mm + end_mm, cord_mm))
    return Chain((*opening, *links, *reversed(closing)), clasp, cord_mm)


def _links(plan: Plan, elements: Sequence[Element]) -> Iterator[Link]:
    """A link for each bead, knot and span of bare cord."""
    marks, beads = {mark.key: mark for mark in marks_of(plan.beads)}, {kind.key: kind for kind in plan.beads}
    known: dict[Element, tuple[Link, ...]] = {}
    for element in elements:
        if element not in known:
            length_mm = element_mm(element, beads, plan.cord)
            match element:
                case Bead(key=key):
                    form, letter = marks[key].outline.form, marks[key].letter
                    known[element] = (Link("bead", form, length_mm, beads[key].diameter_mm, key, letter),)
                case Knot():
                    across_mm = KNOT_THICKNESSES * plan.cord.diameter_mm
                    known[element] = (Link("knot", "round", length_mm, across_mm),)
                case _:
                    known[element] = _bare(length_mm, plan.cord.diameter_mm)
        yield from known[element]


def _bare(length_mm: float, across_mm: float) -> tuple[Link, ...]:
    """Bare cord, in pieces so short that it bends."""
    pieces = max(1, ceil(length_mm / _BENDS_MM))
    return (Link("bare", "tube", length_mm / pieces, across_mm),) * pieces


def _beside(closure: str, length_mm: float, cord_mm: float) -> tuple[Link, ...]:
    """One end, from the middle of the closure on to the first bead."""
    if not length_mm:
        return ()
    if closure not in _BESIDE_A_CLASP:
        return _bare(length_mm, cord_mm)
    form, share, across_mm = _BESIDE_A_CLASP[closure]
    under_the_clasp, beside_mm = _bare(length_mm * (1 - share), 0.0), length_mm * share
    if form is None:
        return *under_the_clasp, *_bare(beside_mm, cord_mm)
    return *under_the_clasp, Link("finding", form, beside_mm, across_mm)


def _clasp(strand: PlannedStrand, length_mm: float, cord_mm: float) -> Iterator[Link]:
    """What lies over the middle of the closure, the lowest first."""
    size_mm, closure, colour = strand.finding_mm or USUAL_FINDING_MM, strand.end_closure, colour_of(strand.finding)
    if closure in ("loop and button", "loop and bead"):
        yield Link("loop", "loop", _LOOP * size_mm, _LOOP * size_mm)
        yield Link("finding", "round", size_mm, size_mm, colour=colour)
    elif closure == "sliding knot":
        yield Link("knot", "coil", _SLIDING[0] * cord_mm, _SLIDING[1] * cord_mm)
    elif closure in _BESIDE_A_CLASP:
        clasp_mm = length_mm * (1 - _BESIDE_A_CLASP[closure][1])
        yield Link("finding", "ring", clasp_mm, min(_LARGEST_CLASP_MM, 0.6 * clasp_mm), colour=colour)
