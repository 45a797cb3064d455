"""How uncertain a piece is before anything is measured: one Gaussian model for margins, cord checks and forecasts.

Shared by all entries of a piece: how far the mean length and take-up of each kind of knot lie from the cord's figures;
how much tighter or looser this piece is worked; how long or short each bead kind's lot runs; how far the ruler's scale
is off. Within one entry: each knot's and each bead's own scatter, and a slow walk of tension, nought at its start.

After element i of an entry, S is the length of the strand and C the cord that it has used, per layer. Both are linear
in those unknowns, so any two of them have a covariance that follows from running sums
(`companion.core.plan.running_sums`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from companion.core.cord.cord import Cord
from companion.core.maths.distributions import effective_degrees
from companion.core.plan.running_sums import Place, Running, running_sums
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import KNOT_KINDS, BeadKind, Element

STRAND, CORD = (1.0, 0.0), (1.0, 1.0)  # what counts of (length, take-up): the strand's length; the cord used


@dataclass(frozen=True, slots=True)
class Spread:
    """Standard deviation, mm, with the degrees of freedom behind it."""

    sd_mm: float
    degrees: float


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity to be read or foretold: length and take-up at one place, weighed. `weights`: STRAND or CORD."""

    entry: int
    elements: int
    weights: tuple[float, float]


class Model:
    """The covariances of a piece's strand lengths and cord use. Built once for a plan; O(kinds) for any two places."""

    def __init__(self, cord: Cord, running: Sequence[Running], assumptions: Assumptions) -> None:
        self.cord = cord
        self.running = tuple(running)
        self.assumptions = assumptions

    @classmethod
    def of(
        cls,
        cord: Cord,
        beads: Sequence[BeadKind],
        entries: Sequence[Sequence[Element]],
        assumptions: Assumptions = USUAL,
    ) -> Model:
        """The model of a piece with these entries."""
        return cls(cord, [running_sums(cord, beads, elements, assumptions) for elements in entries], assumptions)

    def place(self, quantity: Quantity) -> Place:
        """The running sums at that place."""
        return self.running[quantity.entry].place(quantity.elements)

    def mean_mm(self, quantity: Quantity) -> float:
        """Planned value, mm; the cord used is counted from the first element."""
        place = self.place(quantity)
        return quantity.weights[0] * place.length_mm + quantity.weights[1] * place.take_up_mm

    def covariance(self, one: Quantity, other: Quantity) -> float:
        """Covariance of two quantities, mm²."""
        total = sum(self._shared(one, other).values())
        if one.entry == other.entry:
            running = self.running[one.entry]
            first, last = sorted((one.elements, other.elements))
            pairs = _weight_pairs(one.weights, other.weights)
            total += running.own_scatter(first, pairs)
            early, late = (one, other) if one.elements <= other.elements else (other, one)
            total += running.walk(first, last, early.weights, late.weights)
        return total

    def _shared(self, one: Quantity, other: Quantity) -> dict[str, float]:
        """Covariances from what all entries share, by where they come from."""
        a, b = self.place(one), self.place(other)
        parts: dict[str, float] = {}
        for number, kind in enumerate(KNOT_KINDS):
            figures = self.cord.knot(kind)
            parts[kind] = (
                a.knots[number]
                * b.knots[number]
                * _bilinear(
                    one.weights,
                    other.weights,
                    figures.length_sd_mm,
                    figures.take_up_sd_mm,
                    self.assumptions.knot_correlation,
                )
            )
        parts["piece"] = self.assumptions.piece_cv**2 * _piece(a, b, one, other, self.assumptions.piece_correlation)
        lots = sum(mm * b.bead_mm.get(key, 0.0) for key, mm in a.bead_mm.items())
        parts["lots"] = self.assumptions.bead_lot_cv**2 * lots * one.weights[0] * other.weights[0]
        return parts

    def knot_covariance(self, one: Quantity, other: Quantity) -> float:
        """Covariance of what the cord's figures and this piece's tension do to one quantity's knots, and to another."""
        shared = self._shared(one, other)
        return sum(shared[kind] for kind in KNOT_KINDS) + shared["piece"]

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
        firm = variance - sum(shared[kind] for kind in KNOT_KINDS)
        parts = [(sqrt(shared[kind]), self.cord.knot(kind).degrees) for kind in KNOT_KINDS]
        parts.append((sqrt(max(0.0, firm)), float("inf")))
        return Spread(sqrt(variance), effective_degrees(parts))

    def whole(self, entry: int, weights: tuple[float, float]) -> Quantity:
        """The quantity at the end of an entry."""
        return Quantity(entry, self.running[entry].elements, weights)


def _weight_pairs(one: tuple[float, float], other: tuple[float, float]) -> tuple[float, float, float]:
    """What length × length, take-up × take-up and length × take-up count for."""
    return one[0] * other[0], one[1] * other[1], one[0] * other[1] + one[1] * other[0]


def _bilinear(
    one: tuple[float, float], other: tuple[float, float], length_sd: float, take_up_sd: float, correlation: float
) -> float:
    lengths, take_ups, mixed = _weight_pairs(one, other)
    return lengths * length_sd**2 + take_ups * take_up_sd**2 + mixed * correlation * length_sd * take_up_sd


def _piece(a: Place, b: Place, one: Quantity, other: Quantity, correlation: float) -> float:
    """Σ over (length, take-up) pairs of knot length or take-up at both places, weighed and correlated."""
    first = (one.weights[0] * a.knot_mm, one.weights[1] * a.take_up_mm)
    second = (other.weights[0] * b.knot_mm, other.weights[1] * b.take_up_mm)
    return first[0] * second[0] + first[1] * second[1] + correlation * (first[0] * second[1] + first[1] * second[0])
