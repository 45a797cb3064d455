"""How uncertain a piece is before anything is measured: one Gaussian model for margins, cord checks and forecasts.

All entries of a piece share how far the mean length and take-up of each kind of knot lie from the cord's figures, how
much tighter or looser this piece is worked, and how long or short each bead kind's lot runs. Within one entry each knot
and each bead has its own scatter, and tension walks slowly, from nought at its start.

The length of the strand after some element, and the cord used by then (per layer), are linear in those unknowns. So the
covariance of any two of them follows from running sums (`companion.core.plan.uncertainty.running_sums`).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from msgspec import Struct

from companion.core.cord.cord import Cord, KnotFigures
from companion.core.maths.distributions import effective_degrees
from companion.core.plan.uncertainty.running_sums import PartialSums, RunningSums, running_sums
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import KNOT_KINDS, BeadKind, Element

Weights = tuple[float, float]
STRAND, CORD = (1.0, 0.0), (1.0, 1.0)  # what counts of (length, take-up): the strand's length; the cord used


class Spread(Struct, frozen=True):
    """Standard deviation, mm, with the degrees of freedom behind it."""

    sd_mm: float
    degrees: float


class Quantity(Struct, frozen=True):
    """A quantity to be read or foretold: length and take-up at one place, weighed. `weights`: STRAND or CORD."""

    entry: int
    elements: int
    weights: tuple[float, float]


class CovarianceModel:
    """The covariances of a piece's strand lengths and cord use. Built once for a plan; O(bead kinds) for any two.

    `entries`: the running sums of each entry.
    """

    def __init__(self, cord: Cord, entries: Sequence[RunningSums], assumptions: Assumptions) -> None:
        self.cord = cord
        self.entries = tuple(entries)
        self.assumptions = assumptions
        self._piece_cv = assumptions.practised_piece_cv if cord.practised else assumptions.piece_cv
        self._kept_pairs: dict[tuple[Weights, Weights], tuple[tuple[float, float, float], tuple[float, ...]]] = {}

    @classmethod
    def of(
        cls,
        cord: Cord,
        beads: Sequence[BeadKind],
        entries: Sequence[Sequence[Element]],
        assumptions: Assumptions = USUAL,
    ) -> CovarianceModel:
        """The model of a piece with these entries, each given by its elements."""
        kinds = {kind.key: kind for kind in beads}
        return cls(cord, [running_sums(cord, kinds, elements, assumptions) for elements in entries], assumptions)

    def sums(self, quantity: Quantity) -> PartialSums:
        """The sums over the elements that a quantity goes over."""
        return self.entries[quantity.entry].over(quantity.elements)

    def mean_mm(self, quantity: Quantity) -> float:
        """Planned value, mm; the cord used is counted from the first element."""
        sums = self.sums(quantity)
        return quantity.weights[0] * sums.length_mm + quantity.weights[1] * sums.take_up_mm

    def covariance(self, one: Quantity, other: Quantity) -> float:
        """Covariance of two quantities, mm²."""
        single, double, triple, piece, lots = self._shared(one, other)
        total = single + double + triple + piece + lots
        if one.entry == other.entry:
            entry = self.entries[one.entry]
            early, late = (one, other) if one.elements <= other.elements else (other, one)
            pairs, _ = self._pairs(early.weights, late.weights)
            total += entry.own_scatter_mm2(early.elements, pairs)
            total += entry.tension_mm2(early.elements, late.elements, early.weights, late.weights)
        return total

    def _shared(self, one: Quantity, other: Quantity) -> tuple[float, float, float, float, float]:
        """Covariances from what all entries share, mm²: the uncertain mean of each kind of knot in turn, this piece's
        tension, the bead lots."""
        a, b = self.sums(one), self.sums(other)
        _, kinds_mm2 = self._pairs(one.weights, other.weights)
        single, double, triple = (n * m * mm2 for n, m, mm2 in zip(a.knots, b.knots, kinds_mm2, strict=True))
        piece = self._piece_cv**2 * _piece(a, b, one, other, self.assumptions.piece_correlation)
        lots = sum(mm * b.bead_mm.get(key, 0.0) for key, mm in a.bead_mm.items())
        lots *= self.assumptions.bead_lot_cv**2 * one.weights[0] * other.weights[0]
        return single, double, triple, piece, lots

    def _pairs(self, one: Weights, other: Weights) -> tuple[tuple[float, float, float], tuple[float, ...]]:
        """What the pairs of two quantities with these weights count for, and what each kind of knot's uncertain mean
        adds for them, mm²; there are only four such pairs of weights, so each is worked out once."""
        found = self._kept_pairs.get((one, other))
        if found is None:
            pairs = _weight_pairs(one, other)
            rho = self.assumptions.knot_correlation
            found = pairs, tuple(_weighed(pairs, self.cord.knot(kind), rho) for kind in KNOT_KINDS)
            self._kept_pairs[one, other] = found
        return found

    def knot_covariance(self, one: Quantity, other: Quantity) -> float:
        """Covariance of what the cord's figures and this piece's tension do to one quantity's knots, and to another."""
        *knots_and_piece, _ = self._shared(one, other)
        return sum(knots_and_piece)

    def strand_sd_mm(self, entries: Sequence[int]) -> float:
        """Standard deviation of the summed full lengths of these entries, mm, before any reading."""
        quantities = [self.whole(entry, STRAND) for entry in entries]
        return sqrt(sum(self.covariance(one, other) for one in quantities for other in quantities))

    def need_spread(self, entry: int) -> Spread:
        """How uncertain the cord used in a whole entry is, per layer: what the margin is made of.

        Degrees of freedom by Welch–Satterthwaite; only the cord's figures have a finite number of them.
        """
        quantity = self.whole(entry, CORD)
        shared = self._shared(quantity, quantity)
        variance = self.covariance(quantity, quantity)
        of_kinds = shared[: len(KNOT_KINDS)]
        firm = variance - sum(of_kinds)
        parts = [(sqrt(mm2), self.cord.knot(kind).degrees) for kind, mm2 in zip(KNOT_KINDS, of_kinds, strict=True)]
        parts.append((sqrt(max(0.0, firm)), float("inf")))
        return Spread(sqrt(variance), effective_degrees(parts))

    def whole(self, entry: int, weights: tuple[float, float]) -> Quantity:
        """The quantity at the end of an entry."""
        return Quantity(entry, self.entries[entry].elements, weights)


def _weight_pairs(one: tuple[float, float], other: tuple[float, float]) -> tuple[float, float, float]:
    """What length × length, take-up × take-up and length × take-up count for."""
    return one[0] * other[0], one[1] * other[1], one[0] * other[1] + one[1] * other[0]


def _weighed(pairs: tuple[float, float, float], figures: KnotFigures, correlation: float) -> float:
    """What the uncertain means of one kind of knot add for each pair of knots, mm²."""
    lengths, take_ups, mixed = pairs
    length_sd, take_up_sd = figures.length_sd_mm, figures.take_up_sd_mm
    return lengths * length_sd**2 + take_ups * take_up_sd**2 + mixed * correlation * length_sd * take_up_sd


def _piece(a: PartialSums, b: PartialSums, one: Quantity, other: Quantity, correlation: float) -> float:
    """Σ over (length, take-up) pairs of knot length or take-up at both places, weighed and correlated."""
    first = (one.weights[0] * a.knot_mm, one.weights[1] * a.take_up_mm)
    second = (other.weights[0] * b.knot_mm, other.weights[1] * b.take_up_mm)
    return first[0] * second[0] + first[1] * second[1] + correlation * (first[0] * second[1] + first[1] * second[0])
