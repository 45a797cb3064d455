"""Running sums along one entry: all that a covariance between two of its places needs, in O(kinds) each."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import accumulate

from companion.core.cord.cord import Cord, KnotFigures
from companion.core.plan.steps import element_mm
from companion.core.values.assumptions import Assumptions
from companion.core.values.design import KNOT_KINDS, Bead, BeadKind, Element, Knot


@dataclass(frozen=True, slots=True)
class Place:
    """Sums over the elements made so far, mm. `knots`: how many of each kind; `bead_mm`: bead length by key."""

    length_mm: float
    take_up_mm: float
    knot_mm: float
    knots: tuple[int, int, int]
    bead_mm: dict[str, float]


@dataclass
class Running:
    """Running sums of one entry; index 0 is before its first element.

    The walk of tension: knot m's factor x_m has variance m q, q its growth a knot, so that
    cov(Σ_{m≤a} u_m x_m, Σ_{n≤b} v_n x_n) = q (Σ_{m,n≤a} u_m v_n min(m,n) + (V_b − V_a) Σ_{m≤a} m u_m) for a ≤ b.
    """

    elements: int
    length_mm: list[float]
    take_up_mm: list[float]
    knot_mm: list[float]
    knots: tuple[list[int], list[int], list[int]]
    bead_places: dict[str, tuple[float, list[int]]]  # by key: length of one, and where each stands
    scatter: tuple[list[float], list[float], list[float]]  # Σ of length², take-up², length × take-up (co)variances
    growth: float
    knot_number: list[int]
    first_moment: tuple[list[float], list[float]]  # Σ m u_m, for length and take-up, by knot
    squares: dict[tuple[int, int], list[float]]  # Σ_{m,n≤a} u_m v_n min(m,n), by knot
    sums: tuple[list[float], list[float]]  # Σ u_m by knot
    _places: dict[int, Place] = field(default_factory=dict)

    def place(self, elements: int) -> Place:
        """The sums after so many elements."""
        if elements not in self._places:
            self._places[elements] = Place(
                self.length_mm[elements],
                self.take_up_mm[elements],
                self.knot_mm[elements],
                (self.knots[0][elements], self.knots[1][elements], self.knots[2][elements]),
                {key: mm * bisect_left(at, elements) for key, (mm, at) in self.bead_places.items()},
            )
        return self._places[elements]

    def own_scatter(self, elements: int, pairs: tuple[float, float, float]) -> float:
        """Covariance from every knot's and bead's own scatter up to the earlier of two places, mm²."""
        return sum(weight * sums[elements] for weight, sums in zip(pairs, self.scatter, strict=True))

    def moments(self, elements: int, weights: tuple[float, float], before: int) -> float:
        """Σ (before + m) u_m over the knots so far, m counting from 1, u their weighed length and take-up; mm."""
        made = self.knot_number[elements]
        total = 0.0
        for kind, weight in enumerate(weights):
            if weight:
                total += weight * (self.first_moment[kind][made] + before * self.sums[kind][made])
        return total

    def walk(self, first: int, last: int, early: tuple[float, float], late: tuple[float, float]) -> float:
        """Covariance from the walk of tension between two places, first ≤ last, each with its weights, mm²."""
        a, b = self.knot_number[first], self.knot_number[last]
        total = 0.0
        for i, u in enumerate(early):
            for j, v in enumerate(late):
                if u and v:
                    rest = (self.sums[j][b] - self.sums[j][a]) * self.first_moment[i][a]
                    total += u * v * (self.squares[i, j][a] + rest)
        return self.growth * total


def running_sums(
    cord: Cord, beads: Sequence[BeadKind], elements: Sequence[Element], assumptions: Assumptions
) -> Running:
    """The running sums of one entry."""
    kinds = {kind.key: kind for kind in beads}
    lengths = [element_mm(e, kinds, cord) for e in elements]
    knots = [cord.knot(e.kind) if isinstance(e, Knot) else None for e in elements]
    take_ups = [figures.take_up_mm if figures else 0.0 for figures in knots]
    knot_lengths = [figures.length_mm if figures else 0.0 for figures in knots]
    in_turn = ([f.length_mm for f in knots if f], [f.take_up_mm for f in knots if f])
    own = _scatter(elements, lengths, knots, assumptions)
    single, double, triple = (_counts(isinstance(e, Knot) and e.kind == k for e in elements) for k in KNOT_KINDS)
    return Running(
        elements=len(elements),
        length_mm=_sums(lengths),
        take_up_mm=_sums(take_ups),
        knot_mm=_sums(knot_lengths),
        knots=(single, double, triple),
        bead_places=_bead_places(elements, kinds),
        scatter=(_sums(v[0] for v in own), _sums(v[1] for v in own), _sums(v[2] for v in own)),
        growth=assumptions.tension_walk_by_end_cv**2 / max(1, len(in_turn[0])),
        knot_number=_counts(figures is not None for figures in knots),
        first_moment=(_moments(in_turn[0]), _moments(in_turn[1])),
        squares={(i, j): _squares(in_turn[i], in_turn[j]) for i in (0, 1) for j in (0, 1)},
        sums=(_sums(in_turn[0]), _sums(in_turn[1])),
    )


def _sums(values: Iterable[float]) -> list[float]:
    return list(accumulate(values, initial=0.0))


def _counts(flags: Iterable[bool]) -> list[int]:
    return list(accumulate((int(flag) for flag in flags), initial=0))


def _moments(values: Sequence[float]) -> list[float]:
    return _sums(number * value for number, value in enumerate(values, start=1))


def _bead_places(elements: Sequence[Element], kinds: dict[str, BeadKind]) -> dict[str, tuple[float, list[int]]]:
    found: dict[str, tuple[float, list[int]]] = {}
    for number, element in enumerate(elements):
        if isinstance(element, Bead):
            if element.key not in found:
                found[element.key] = (kinds[element.key].length_mm, [])
            found[element.key][1].append(number)
    return found


def _scatter(
    elements: Sequence[Element], lengths: Sequence[float], knots: Sequence[KnotFigures | None], assumptions: Assumptions
) -> list[tuple[float, float, float]]:
    """Each element's own variance of length, of take-up, and their covariance, mm²."""
    found = []
    for element, length_mm, figures in zip(elements, lengths, knots, strict=True):
        if figures:
            w, t = figures.length_scatter_mm, figures.take_up_scatter_mm
            found.append((w * w, t * t, assumptions.knot_correlation * w * t))
        elif isinstance(element, Bead):
            found.append(((assumptions.bead_scatter_cv * length_mm) ** 2, 0.0, 0.0))
        else:
            found.append((0.0, 0.0, 0.0))
    return found


def _squares(u: Sequence[float], v: Sequence[float]) -> list[float]:
    """Σ_{m,n≤a} u_m v_n min(m,n) for a = 0 …: each new knot a adds u_a Σ n v_n + v_a Σ m u_m − a u_a v_a."""
    sums = [0.0]
    moment_u = moment_v = 0.0
    for a, (one, other) in enumerate(zip(u, v, strict=True), start=1):
        moment_u += a * one
        moment_v += a * other
        sums.append(sums[-1] + one * moment_v + other * moment_u - a * one * other)
    return sums
