"""Small dense linear algebra for exact Gaussian conditioning: a Cholesky factor that grows by one row at a time."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, sqrt
from operator import mul

from msgspec import Struct

LEAST_PIVOT = 1e-12  # relative to the corner it came from


class NotPositiveDefinite(ArithmeticError):
    """A matrix that is not a covariance: a pivot is not above zero."""


class Cholesky(Struct, frozen=True):
    """Lower factor L of a symmetric positive definite matrix K = L L', by rows. A grown one shares its rows."""

    rows: tuple[tuple[float, ...], ...] = ()

    def extended(self, column: Sequence[float], corner: float, own: float = 0.0) -> Cholesky:
        """The factor of K with one more row and column (`column` above `corner`), n² / 2 products for n rows.

        `own`: so much of the corner is the new variable's alone, so the pivot can be no less, whatever rounding says.
        Raises NotPositiveDefinite, and ValueError for a column that is not as long as there are rows.
        """
        row = self.solve_lower(column)
        pivot = corner - fsum(value * value for value in row)
        pivot = own if pivot < own else pivot
        if not (pivot >= own > 0 or pivot > LEAST_PIVOT * abs(corner)):  # put so that not-a-number fails as well
            raise NotPositiveDefinite(f"pivot {pivot} of a corner {corner}")
        return Cholesky((*self.rows, (*row, sqrt(pivot))))

    def solve_lower(self, vector: Sequence[float]) -> tuple[float, ...]:
        """x with L x = vector. Raises ValueError for a vector that is not as long as there are rows."""
        solved: list[float] = []
        for row, value in zip(self.rows, vector, strict=True):
            solved.append(self.solve_next(solved, row, value))
        return tuple(solved)

    @staticmethod
    def solve_next(solved: Sequence[float], row: Sequence[float], value: float) -> float:
        """The next entry of x, given those before it."""
        before: float = sum(map(mul, row, solved))
        return (value - before) / row[len(solved)]


def conditioned(
    whitened: Sequence[float], mean: float, variance: float, covariances: Sequence[float]
) -> tuple[float, float]:
    """Mean and variance of a target after the readings.

    `whitened`: L^-1 (readings - their prior means); `covariances`: L^-1 of the target's covariances with the readings,
    as many. Raises ValueError for another number of them.
    """
    if len(covariances) != len(whitened):
        raise ValueError(f"{len(covariances)} covariances with {len(whitened)} readings")
    shifted = mean + fsum(map(mul, covariances, whitened))
    return shifted, max(0.0, variance - fsum(map(mul, covariances, covariances)))
