"""The target of a piece, and the count for every `fit` that brings its planned finished length nearest."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import pi

from companion.core.cord.cord import Cord
from companion.core.plan.ends import strand_end
from companion.core.plan.layout import bare_mm, bead_counts, holds_fit, in_order, knot_counts, tally
from companion.core.values.design import KNOT_KINDS, MOST_ELEMENTS, BeadKind, Design, Size, Strand

BRACELET_UNDER_MM = 12 * 25.4  # a bare finished length under 12 in is a bracelet
ALIKE_MM = 1e-9  # two lengths nearer than this are the same


@dataclass(frozen=True, slots=True)
class StrandSize:
    """One strand at one count: its own length, and what its closure adds, mm."""

    strand_mm: float
    closure_mm: float
    mean_diameter_mm: float


@dataclass
class Measure:
    """Lengths of a design at any count, from the tally alone: nothing is expanded."""

    design: Design
    cord: Cord
    _sizes: dict[int, tuple[StrandSize, ...]] = field(default_factory=dict)
    _kinds: dict[str, BeadKind] = field(init=False)

    def __post_init__(self) -> None:
        self._kinds = {kind.key: kind for kind in self.design.beads}

    def sizes(self, count: int) -> tuple[StrandSize, ...]:
        """Every strand's size at that count."""
        if count not in self._sizes:
            self._sizes[count] = tuple(self._size(strand, count) for strand in self.design.strands)
        return self._sizes[count]

    def longest(self, count: int) -> int:
        """The longest strand (from 0) at that count; of strands equally long, the first."""
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
        return sum(sum(tally(strand.layout, count).values()) for strand in self.design.strands)

    def _size(self, strand: Strand, count: int) -> StrandSize:
        total = tally(strand.layout, count)
        beads_mm, mean_diameter_mm = length_and_diameter_mm(bead_counts(total), self.design.beads)
        knots = knot_counts(total)
        knots_mm = sum(knots[kind] * self.cord.knot(kind).length_mm for kind in KNOT_KINDS)
        closure_mm = closure_length_mm(strand, count, self._kinds, self.cord)
        return StrandSize(beads_mm + knots_mm + bare_mm(total), closure_mm, mean_diameter_mm)


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
    """What a closed piece has to pass over, and how far round that is, mm."""
    kind = size.kind if size else "length"
    bracelet = kind == "wrist" or (kind == "length" and finished_mm < BRACELET_UNDER_MM)
    return ("hand", HAND_ROUND_MM) if bracelet else ("head", HEAD_ROUND_MM)


def length_and_diameter_mm(counts: Mapping[str, int], beads: Iterable[BeadKind]) -> tuple[float, float]:
    """Length of all these beads, mm, and their mean diameter weighted by length, mm (0 without beads)."""
    kinds = {kind.key: kind for kind in beads}
    length = weighted = 0.0
    for key, count in counts.items():
        length += count * kinds[key].length_mm
        weighted += count * kinds[key].length_mm * kinds[key].diameter_mm
    return length, weighted / length if length else 0.0


def first_longest(lengths_mm: Sequence[float]) -> int:
    """The place of the longest; of lengths alike, the first."""
    best = 0
    for number, length_mm in enumerate(lengths_mm):
        if length_mm > lengths_mm[best] + ALIKE_MM:
            best = number
    return best


def closure_length_mm(strand: Strand, count: int, beads: Mapping[str, BeadKind], cord: Cord) -> float:
    """What both ends of a strand add to its finished length at that count, mm."""
    forward, backward = in_order(strand.layout, count), in_order(strand.layout, count, backward=True)
    start = strand_end(strand, True, forward, beads, cord, "mm")
    end = strand_end(strand, False, backward, beads, cord, "mm")
    return start.figures.length_mm + end.figures.length_mm


def choose_fit(measure: Measure) -> int | None:
    """The count for every `fit` of the design, or None where it has none.

    The one whose planned finished length comes nearest the target of that very count; of counts equally near, the
    lowest. Length grows with the count, and a wrist's target stays between those of its thinnest and thickest bead,
    so only counts near those are looked at.
    """
    design = measure.design
    if design.size is None or not any(holds_fit(strand.layout) for strand in design.strands):
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
