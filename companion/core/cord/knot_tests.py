"""Test knots: what a cord's knots take, as measured, pooled with what is known of all cords beforehand.

A test row is one length of cord measured before and after so many knots are tied in it; their take-up is the
difference, shared out. A row of knots tied touching, measured along the cord, gives their length.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from msgspec import Struct

from companion.core.cord.cord import FIRM, KnotFigures, estimate
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import CordDesign, KnotKind


class KnotTest(Struct, frozen=True):
    """A length of cord before and after `knots` (1 or more) were tied in it, mm; the ruler's least division, mm."""

    before_mm: float
    after_mm: float
    knots: int
    ruler_step_mm: float = 1.0

    @property
    def take_up_mm(self) -> float:
        """Cord that one of the knots swallowed, mm a layer."""
        return (self.before_mm - self.after_mm) / self.knots


class TouchingRow(Struct, frozen=True):
    """A row of `knots` tied touching, `row_mm` long along the cord; the ruler's least division, mm."""

    row_mm: float
    knots: int
    ruler_step_mm: float = 1.0

    @property
    def length_mm(self) -> float:
        """Length of one of the knots along the cord, mm."""
        return self.row_mm / self.knots


class Estimate(Struct, frozen=True):
    """A mean with its standard deviation and degrees of freedom, and the scatter of one knot; mm."""

    mean_mm: float
    sd_mm: float
    scatter_mm: float
    degrees: float


def reading_sd_mm(row: KnotTest, assumptions: Assumptions = USUAL) -> float:
    """Uncertainty of one knot's take-up from a row, mm: two rectangular readings (JCGM 100:2008, F.2.2.1: r/√6 for
    their difference) and the handling of two lengths, shared by the row's knots."""
    return sqrt(row.ruler_step_mm**2 / 6 + 2 * assumptions.test_handling_mm**2) / row.knots


def touching_sd_mm(row: TouchingRow, assumptions: Assumptions = USUAL) -> float:
    """Uncertainty of one knot's length from a touching row, mm: one rectangular reading and its handling, shared."""
    return sqrt(row.ruler_step_mm**2 / 12 + assumptions.test_handling_mm**2) / row.knots


def figures_from_tests(
    cord: CordDesign,
    kind: KnotKind,
    rows: Sequence[KnotTest],
    touching: Sequence[TouchingRow],
    assumptions: Assumptions = USUAL,
) -> KnotFigures:
    """Figures of one kind of knot from its tests, pooled with the estimate from the cord's diameter."""
    prior = estimate(cord, kind, assumptions)
    cv, firm = assumptions.knot_scatter_cv, assumptions.knot_scatter_degrees
    take_ups = [(row.take_up_mm, row.knots, reading_sd_mm(row, assumptions)) for row in rows]
    lengths = [(row.length_mm, row.knots, touching_sd_mm(row, assumptions)) for row in touching]
    take_up = pooled((prior.take_up_mm, prior.take_up_sd_mm), take_ups, cv, firm)
    length = pooled((prior.length_mm, prior.length_sd_mm), lengths, cv, firm)
    return KnotFigures(
        take_up.mean_mm,
        length.mean_mm,
        take_up.sd_mm,
        length.sd_mm,
        take_up.scatter_mm,
        length.scatter_mm,
        min(take_up.degrees, length.degrees),
        "card" if rows or touching else "estimate",
        "" if rows and touching else "length" if rows else "take-up" if touching else "",
    )


def pooled(
    prior: tuple[float, float] | None, tests: Sequence[tuple[float, int, float]], scatter_cv: float, firm: float
) -> Estimate:
    """Mean of one knot from tests of (mean of a row's knots, how many, reading sd of that mean), mm.

    The scatter is unknown: the tests' own, weighed by knots, is drawn towards `scatter_cv` of the mean, which counts
    as `firm` degrees of freedom. `prior` (mean, sd): what is believed without tests, None for nothing.
    """
    if not tests:
        assert prior is not None
        return Estimate(prior[0], prior[1], scatter_cv * prior[0], FIRM)
    knots = sum(n for _, n, _ in tests)
    plain = sum(mean * n for mean, n, _ in tests) / knots
    own = sum(n * (mean - plain) ** 2 for mean, n, _ in tests)
    read = sum((1 - n / knots) * n * sd * sd for _, n, sd in tests)  # what reading errors alone would add to `own`
    believed = (scatter_cv * plain) ** 2
    degrees = firm + len(tests) - 1
    variance = (firm * believed + max(0.0, own - read)) / degrees if degrees else 0.0
    weights = [1 / (variance / n + sd * sd) for _, n, sd in tests if variance / n + sd * sd > 0]
    if len(weights) < len(tests):
        return Estimate(plain, 0.0, 0.0, max(1.0, degrees))
    mean = sum(w * m for w, (m, _, _) in zip(weights, tests, strict=True)) / sum(weights)
    precision = sum(weights)
    if prior is not None and prior[1] > 0:
        mean = (mean * precision + prior[0] / prior[1] ** 2) / (precision + 1 / prior[1] ** 2)
        precision += 1 / prior[1] ** 2
    return Estimate(mean, sqrt(1 / precision), sqrt(variance), max(1.0, degrees))
