"""The target of a piece, and the count for every `fit` that brings its planned finished length nearest."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import pi

from msgspec import Struct

from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import Cord
from companion.core.plan.ends import strand_end
from companion.core.plan.layout import LayoutCount, Term, bare_mm, bead_counts, in_order, knot_counts
from companion.core.plan.plan import BRACELET_UNDER_MM
from companion.core.values.design import KNOT_KINDS, MOST_ELEMENTS, BeadKind, Design, Element, Size, Strand

ALIKE_MM = 1e-9  # two lengths nearer than this are the same


class StrandSize(Struct, frozen=True):
    """One strand at one count: its own length, and what its closure adds, mm."""

    strand_mm: float
    closure_mm: float
    mean_diameter_mm: float


class _Sums(Struct, frozen=True):
    """One term of a strand's layout: how long it is, its beads alone, and those times their diameters; mm, mm²."""

    term: Term
    strand_mm: float
    beads_mm: float
    weighted_mm2: float


class Measure:
    """Lengths of a design at any count for every `fit`: each layout is looked through once, nothing is expanded."""

    def __init__(self, design: Design, cord: Cord) -> None:
        self.design = design
        self.layouts = tuple(LayoutCount.of(strand.layout) for strand in design.strands)
        beads = {kind.key: kind for kind in design.beads}
        self._sums = [[_sums(term, beads, cord) for term in layout.terms] for layout in self.layouts]
        self._closures = [_ClosureLength(strand, beads, cord) for strand in design.strands]
        self._sizes: dict[int, tuple[StrandSize, ...]] = {}

    @property
    def holds_fit(self) -> bool:
        """Whether a `fit` stands anywhere in the design."""
        return any(layout.holds_fit for layout in self.layouts)

    def sizes(self, count: int) -> tuple[StrandSize, ...]:
        """Every strand's size at that count."""
        if count not in self._sizes:
            strands = zip(self._sums, self._closures, strict=True)
            self._sizes[count] = tuple(_size(sums, closure.at(count), count) for sums, closure in strands)
        return self._sizes[count]

    def longest(self, count: int) -> int:
        """The number (from 0) of the longest strand at that count; the first, if several are equally long."""
        return first_longest([size.strand_mm for size in self.sizes(count)])

    def finished_mm(self, count: int) -> float:
        """The planned finished length at that count, mm."""
        size = self.sizes(count)[self.longest(count)]
        return size.strand_mm + size.closure_mm

    def target_mm(self, count: int) -> float | None:
        """The target at that count, mm: a wrist's depends on the beads that lie along it. None without a size."""
        size = self.design.size
        if size is None:
            return None
        return target_mm(size, self.sizes(count)[self.longest(count)].mean_diameter_mm)

    def elements(self, count: int) -> int:
        """How many beads, knots and bare spans the whole design comes to at that count."""
        return sum(layout.total(count) for layout in self.layouts)


def _sums(term: Term, beads: Mapping[str, BeadKind], cord: Cord) -> _Sums:
    counts, knots = bead_counts(term.tally), knot_counts(term.tally)
    beads_mm, mean_diameter_mm = length_and_diameter_mm(counts, beads)
    knots_mm = sum(knots[kind] * cord.knot(kind).length_mm for kind in KNOT_KINDS)
    return _Sums(term, beads_mm + knots_mm + bare_mm(term.tally), beads_mm, beads_mm * mean_diameter_mm)


def _size(sums: Sequence[_Sums], closure_mm: float, count: int) -> StrandSize:
    strand_mm = beads_mm = weighted_mm2 = 0.0
    for one in sums:
        times = one.term.times(count)
        strand_mm += times * one.strand_mm
        beads_mm += times * one.beads_mm
        weighted_mm2 += times * one.weighted_mm2
    return StrandSize(strand_mm, closure_mm, weighted_mm2 / beads_mm if beads_mm else 0.0)


def target_mm(size: Size, mean_diameter_mm: float) -> float:
    """The target of a size, mm, with beads of that mean thickness: it matters to a wrist alone.

    The centre line of a closed strand is longer than what it goes round by pi times its thickness (exact for a
    circle; the trade's "add three bead diameters" is this rule).
    """
    return size.turns * (size.body_mm + size.ease_mm + (pi * mean_diameter_mm if size.kind == "wrist" else 0.0))


# 95th percentiles of men, mm: Gordon et al., "2012 Anthropometric Survey of U.S. Army Personnel". A closed band must
# pass over the hand, a closed necklace over the head.
HAND_ROUND_MM, HEAD_ROUND_MM = 230.0, 601.0


def body_to_pass(size: Size | None, finished_mm: float) -> tuple[str, float]:
    """What a closed piece has to pass over (a hand or a head), and how far round that is, mm."""
    kind = size.kind if size else "length"
    bracelet = kind == "wrist" or (kind == "length" and finished_mm < BRACELET_UNDER_MM)
    return ("hand", HAND_ROUND_MM) if bracelet else ("head", HEAD_ROUND_MM)


def length_and_diameter_mm(counts: Mapping[str, int], beads: Mapping[str, BeadKind]) -> tuple[float, float]:
    """Length of all these beads, mm, and their mean diameter weighted by length, mm (0 without beads)."""
    length = weighted = 0.0
    for key, count in counts.items():
        length += count * beads[key].length_mm
        weighted += count * beads[key].length_mm * beads[key].diameter_mm
    return length, weighted / length if length else 0.0


def first_longest(lengths_mm: Sequence[float]) -> int:
    """The index of the longest; the first, if several are equal."""
    best = 0
    for number, length_mm in enumerate(lengths_mm):
        if length_mm > lengths_mm[best] + ALIKE_MM:
            best = number
    return best


class _ClosureLength:
    """What both ends of a strand add to its finished length, mm, at any count: it depends on the beads at the ends
    where a closure ties knots of its own beside them."""

    def __init__(self, strand: Strand, beads: Mapping[str, BeadKind], cord: Cord) -> None:
        self._strand, self._beads, self._cord = strand, beads, cord
        halves = CLOSURES[strand.start.closure].start, CLOSURES[strand.end.closure].end
        self._fixed_mm: float | None = 0.0
        self._fixed_mm = None if any(half.own_knots for half in halves) else self._measured(1)

    def at(self, count: int) -> float:
        """The same at that count, mm."""
        return self._measured(count) if self._fixed_mm is None else self._fixed_mm

    def _measured(self, count: int) -> float:
        strand = self._strand
        forward: Iterable[Element] = ()
        backward: Iterable[Element] = ()
        if self._fixed_mm is None:  # only then do the beads at the ends matter
            forward, backward = in_order(strand.layout, count), in_order(strand.layout, count, backward=True)
        start = strand_end(strand, True, forward, self._beads, self._cord, "mm")
        end = strand_end(strand, False, backward, self._beads, self._cord, "mm")
        return start.figures.length_mm + end.figures.length_mm


def choose_fit(measure: Measure) -> int | None:
    """The count for every `fit` of the design, or None where it has none.

    The one whose planned finished length comes nearest the target of that very count; of counts equally near, the
    lowest. Length grows with the count, and a wrist's target stays between those of its thinnest and thickest bead,
    so only counts near those are looked at.
    """
    design = measure.design
    if design.size is None or not measure.holds_fit:
        return None
    most = _most(measure)
    low_mm, high_mm = _strand_range(measure)
    near = _first_reaching(measure, low_mm, most)
    reach_mm = min(_off_mm(measure, count) for count in {max(1, near - 1), near})
    best = _first_reaching(measure, low_mm - reach_mm - ALIKE_MM, most)
    last = _first_reaching(measure, high_mm + reach_mm + ALIKE_MM, most)
    best_mm = _off_mm(measure, best)
    for count in range(best + 1, last + 1):
        off_mm = _off_mm(measure, count)
        if off_mm < best_mm - ALIKE_MM:
            best, best_mm = count, off_mm
    return best


def _first_reaching(measure: Measure, strand_mm: float, most: int) -> int:
    """The lowest count from 1 to `most` whose longest strand is at least that long, mm; `most` if none is."""
    low, high = 1, most
    while low < high:
        middle = (low + high) // 2
        if max(size.strand_mm for size in measure.sizes(middle)) >= strand_mm:
            high = middle
        else:
            low = middle + 1
    return low


def _most(measure: Measure) -> int:
    """The highest count whose elements stay within the limit; at least 1."""
    low, high = 1, MOST_ELEMENTS
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if measure.elements(middle) <= MOST_ELEMENTS else (low, middle - 1)
    return low


def _strand_range(measure: Measure) -> tuple[float, float]:
    """The strand lengths, mm, between which any target can lie once a closure is added."""
    size = measure.design.size
    assert size is not None
    closures_mm = [one.closure_mm for one in measure.sizes(1)]
    thickest_mm = max((bead.diameter_mm for bead in measure.design.beads), default=0.0) if size.kind == "wrist" else 0.0
    base_mm = size.turns * (size.body_mm + size.ease_mm)
    return base_mm - max(closures_mm), base_mm + size.turns * pi * thickest_mm - min(closures_mm)


def _off_mm(measure: Measure, count: int) -> float:
    target_mm = measure.target_mm(count)
    assert target_mm is not None
    return abs(measure.finished_mm(count) - target_mm)
