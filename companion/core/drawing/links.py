"""The links of a closed piece: its beads, knots and spans of cord in their order, and what closes it. All in mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from msgspec import Struct
from msgspec.structs import replace

from companion.core.drawing.bodies import BodyForm
from companion.core.drawing.own_knots import own_knots
from companion.core.drawing.strand import KNOT_THICKNESSES, PartKind
from companion.core.picture.colours import Colour, colour_of
from companion.core.picture.marks import marks_of
from companion.core.plan.longest import strand_groups
from companion.core.plan.plan import Plan, PlannedStrand, element_mm
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
    """One strand from the middle of its closure round to it again. `order`: for each link, how many beads of the whole
    piece are on before it is; `clasp`: what lies over the middle of the closure, once all of it is done; the way is not
    longer for it."""

    links: tuple[Link, ...]
    order: tuple[int, ...]
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
    if any(_NEVER_CLOSED in (strand.start_closure, strand.end_closure) for strand in plan.strands):
        return ()
    chains, links, on_before = [], _LinksOf(plan), 0
    for group in strand_groups(plan.strands):
        chains.append(_chain([plan.strands[number] for number in group], links, on_before))
        on_before += sum(link.kind == "bead" for link in chains[-1].links)
    return tuple(chains) if all(chain.length_mm > 0 for chain in chains) else ()


def _chain(entries: Sequence[PlannedStrand], links: _LinksOf, on_before: int) -> Chain:
    """One strand; its first side leads clockwise, its second one the other way."""
    first, last = entries[0], entries[-1]
    around, own_mm = links.in_order(first, on_before)
    ends_mm = [(first.closure_length_mm - own_mm) / 2] * 2
    start = last.end_closure if len(entries) > 1 else first.start_closure
    on_after = on_before + sum(link.kind == "bead" for link, _ in around)
    if len(entries) > 1:
        other, others_own_mm = links.in_order(last, on_after)
        ends_mm = [last.closure_length_mm - others_own_mm, first.closure_length_mm - own_mm]
        on_after += sum(link.kind == "bead" for link, _ in other)
        around = [*reversed(other), *around]
    opened_by = on_before if len(entries) == 1 else on_after  # a second side ends where the strand starts
    opening = [(link, opened_by) for link in _beside(start, ends_mm[0], links.cord_mm)]
    closing = [(link, on_after) for link in reversed(_beside(first.end_closure, ends_mm[1], links.cord_mm))]
    laid = [*opening, *around, *closing]
    clasp = tuple(_clasp(first, sum(ends_mm), links.cord_mm))
    return Chain(tuple(link for link, _ in laid), tuple(order for _, order in laid), clasp, links.cord_mm)


class _LinksOf:
    """A link for each kind of element of a plan."""

    def __init__(self, plan: Plan) -> None:
        self.plan, self.marks = plan, {mark.key: mark for mark in marks_of(plan.beads)}
        self.beads = {kind.key: kind for kind in plan.beads}
        self.cord_mm = plan.cord.diameter_mm * (1 if plan.cord.layers == 1 else DOUBLED)
        self._known: dict[Element, tuple[Link, ...]] = {}

    def in_order(self, strand: PlannedStrand, on_before: int) -> tuple[list[tuple[Link, int]], float]:
        """The links of an entry's elements, each with how many beads are on before it is, and the knots that its
        closures tie among them, which take so much of the closures' length."""
        own, found = own_knots(strand), []
        tied = own.at_start | own.at_end
        (knot,) = self._of(Knot("single"))
        knot = replace(knot, length_mm=min(knot.length_mm, strand.closure_length_mm / 2 / max(1, len(tied))))
        on_all = on_before + sum(isinstance(element, Bead) for element in strand.elements)
        for number, element in enumerate(strand.elements):
            for link in self._of(element):
                found.append((link, on_before))
                on_before += link.kind == "bead"
            if number in tied:
                found.append((knot, on_all if number in own.at_end else on_before))
        return found, len(tied) * knot.length_mm

    def _of(self, element: Element) -> tuple[Link, ...]:
        if element not in self._known:
            self._known[element] = self._made(element)
        return self._known[element]

    def _made(self, element: Element) -> tuple[Link, ...]:
        length_mm, cord = element_mm(element, self.beads, self.plan.cord), self.plan.cord
        match element:
            case Bead(key=key):
                mark = self.marks[key]
                return (Link("bead", mark.outline.form, length_mm, self.beads[key].diameter_mm, key, mark.letter),)
            case Knot():
                return (Link("knot", "round", length_mm, KNOT_THICKNESSES * cord.diameter_mm),)
            case _:
                return _bare(length_mm, cord.diameter_mm)


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
