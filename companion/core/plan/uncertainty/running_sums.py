"""Running sums along one entry: all that a covariance between two of its places needs, in O(bead kinds) each."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import accumulate
from operator import attrgetter

from msgspec import Struct, field

from companion.core.cord.cord import Cord
from companion.core.plan.uncertainty.tension_walk import TensionWalk
from companion.core.values.assumptions import Assumptions
from companion.core.values.design import KNOT_KINDS, Bead, BeadKind, Element, Knot, KnotKind, Space


class PartialSums(Struct, frozen=True):
    """Sums over the first elements of an entry, mm. `knots`: how many of each kind; `bead_mm`: bead length by key."""

    length_mm: float
    take_up_mm: float
    knot_mm: float
    knots: tuple[int, int, int]
    bead_mm: dict[str, float]


class RunningSums(Struct, frozen=True):
    """The sums over the first 0, 1, 2 … elements of one entry."""

    elements: int
    length_mm: list[float]
    take_up_mm: list[float]
    knot_mm: list[float]
    knots: tuple[list[int], list[int], list[int]]
    scatter_mm2: tuple[list[float], list[float], list[float]]  # (co)variances: length, take-up, length × take-up
    bead_places: dict[str, tuple[float, list[int]]]  # by key: length of one, mm, and where each stands
    tension: TensionWalk
    _kept: dict[int, PartialSums] = field(default_factory=dict)

    def over(self, elements: int) -> PartialSums:
        """The sums over so many elements."""
        if elements not in self._kept:
            self._kept[elements] = PartialSums(
                self.length_mm[elements],
                self.take_up_mm[elements],
                self.knot_mm[elements],
                (self.knots[0][elements], self.knots[1][elements], self.knots[2][elements]),
                {key: mm * bisect_left(places, elements) for key, (mm, places) in self.bead_places.items()},
            )
        return self._kept[elements]

    def knot_number(self, elements: int) -> int:
        """How many of the first so many elements are knots."""
        return sum(counts[elements] for counts in self.knots)

    @property
    def all_knots(self) -> int:
        """How many knots the entry has."""
        return self.knot_number(self.elements)

    @property
    def all_beads(self) -> int:
        """How many beads the entry has."""
        return sum(len(places) for _, places in self.bead_places.values())

    def own_scatter_mm2(self, elements: int, pairs: tuple[float, float, float]) -> float:
        """Covariance from every knot's and bead's own scatter up to the earlier of two places, mm²."""
        return sum(weight * sums[elements] for weight, sums in zip(pairs, self.scatter_mm2, strict=True))

    def tension_mm2(self, first: int, last: int, early: tuple[float, float], late: tuple[float, float]) -> float:
        """Covariance from the walk of tension between two places, first ≤ last, each with its weights, mm²."""
        return self.tension.covariance(self.knot_number(first), self.knot_number(last), early, late)

    def tension_moment_mm(self, elements: int, weights: tuple[float, float], before: int) -> float:
        """Σ m u_m over the knots so far, m counting from `before` + 1, u their weighed length and take-up; mm."""
        return self.tension.moment(self.knot_number(elements), weights, before)


class _Share(Struct, frozen=True):
    """What one element adds to each of the sums."""

    length_mm: float = 0.0
    take_up_mm: float = 0.0
    knot_mm: float = 0.0
    length_mm2: float = 0.0
    take_up_mm2: float = 0.0
    mixed_mm2: float = 0.0
    single: int = 0
    double: int = 0
    triple: int = 0


def running_sums(
    cord: Cord, beads: Mapping[str, BeadKind], elements: Sequence[Element], assumptions: Assumptions
) -> RunningSums:
    """The running sums of one entry; `beads` by key."""
    shares = {element: _share(element, cord, beads, assumptions) for element in set(elements)}
    rows = [shares[element] for element in elements]

    def running(what: str) -> list[float]:
        return list(accumulate(map(attrgetter(what), rows), initial=0.0))

    def counted(kind: KnotKind) -> list[int]:
        return list(accumulate(map(attrgetter(kind), rows), initial=0))

    knots = [row for row in rows if row.single or row.double or row.triple]
    return RunningSums(
        elements=len(elements),
        length_mm=running("length_mm"),
        take_up_mm=running("take_up_mm"),
        knot_mm=running("knot_mm"),
        knots=(counted("single"), counted("double"), counted("triple")),
        scatter_mm2=(running("length_mm2"), running("take_up_mm2"), running("mixed_mm2")),
        bead_places=_bead_places(elements, beads),
        tension=TensionWalk.over(
            [row.knot_mm for row in knots], [row.take_up_mm for row in knots], assumptions.tension_walk_by_end_cv
        ),
    )


def _share(element: Element, cord: Cord, beads: Mapping[str, BeadKind], assumptions: Assumptions) -> _Share:
    match element:
        case Bead(key=key):
            length_mm = beads[key].length_mm
            return _Share(length_mm, length_mm2=(assumptions.bead_scatter_cv * length_mm) ** 2)
        case Space(length_mm=length_mm):
            return _Share(length_mm)
        case Knot(kind=kind):
            figures = cord.knot(kind)
            w, t = figures.length_scatter_mm, figures.take_up_scatter_mm
            scatter = (w * w, t * t, assumptions.knot_correlation * w * t)
            counts = (int(kind == one) for one in KNOT_KINDS)
            return _Share(figures.length_mm, figures.take_up_mm, figures.length_mm, *scatter, *counts)


def _bead_places(elements: Sequence[Element], beads: Mapping[str, BeadKind]) -> dict[str, tuple[float, list[int]]]:
    places: dict[str, list[int]] = defaultdict(list)
    for number, element in enumerate(elements):
        if isinstance(element, Bead):
            places[element.key].append(number)
    return {key: (beads[key].length_mm, found) for key, found in places.items()}
