"""How a slow change of tension along one entry makes its knots alike: knots tied close to each other most."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import accumulate, count

from msgspec import Struct


class TensionWalk(Struct, frozen=True):
    """The walk of tension over the knots of one entry, nought at its start; all sums by knot, index 0 before the first.

    Knot m's factor x_m has variance m q, q its growth from knot to knot, so that for a ≤ b
    cov(Σ_{m≤a} u_m x_m, Σ_{n≤b} v_n x_n) = q (Σ_{m,n≤a} u_m v_n min(m,n) + (V_b − V_a) Σ_{m≤a} m u_m),
    u and v being lengths or take-ups, V the sum of v.
    """

    growth: float
    sums: tuple[list[float], list[float]]  # Σ u_m, for length and for take-up
    first_moments: tuple[list[float], list[float]]  # Σ m u_m
    double_sums: dict[tuple[int, int], list[float]]  # Σ_{m,n≤a} u_m v_n min(m,n); 0 for length, 1 for take-up

    @classmethod
    def over(cls, lengths_mm: Sequence[float], take_ups_mm: Sequence[float], by_end_cv: float) -> TensionWalk:
        """The walk over these knots, in order, whose factor has that coefficient of variation at the end."""
        length, take_up = (lengths_mm, _moments(lengths_mm)), (take_ups_mm, _moments(take_ups_mm))
        mixed = _double_sums(*length, *take_up)
        return cls(
            growth=by_end_cv**2 / max(1, len(lengths_mm)),
            sums=(_sums(lengths_mm), _sums(take_ups_mm)),
            first_moments=(length[1], take_up[1]),
            double_sums={
                (0, 0): _double_sums(*length, *length),
                (1, 1): _double_sums(*take_up, *take_up),
                (0, 1): mixed,
                (1, 0): mixed,
            },
        )

    def covariance(self, a: int, b: int, early: tuple[float, float], late: tuple[float, float]) -> float:
        """Between the first `a` knots and the first `b`, a ≤ b, each with its weights for length and take-up, mm²."""
        total = 0.0
        for i, u in enumerate(early):
            for j, v in enumerate(late):
                if u and v:
                    rest = (self.sums[j][b] - self.sums[j][a]) * self.first_moments[i][a]
                    total += u * v * (self.double_sums[i, j][a] + rest)
        return self.growth * total

    def moment(self, knots: int, weights: tuple[float, float], before: int) -> float:
        """Σ (before + m) u_m over the first knots, m counting from 1, u their weighed length and take-up; mm."""
        total = 0.0
        for kind, weight in enumerate(weights):
            if weight:
                total += weight * (self.first_moments[kind][knots] + before * self.sums[kind][knots])
        return total


def _sums(values: Iterable[float]) -> list[float]:
    return list(accumulate(values, initial=0.0))


def _moments(values: Sequence[float]) -> list[float]:
    return _sums(number * value for number, value in enumerate(values, start=1))


def _double_sums(u: Sequence[float], u_moments: list[float], v: Sequence[float], v_moments: list[float]) -> list[float]:
    """Σ_{m,n≤a} u_m v_n min(m,n) for a = 0 …: each new knot a adds u_a Σ n v_n + v_a Σ m u_m − a u_a v_a."""
    knots = zip(count(1), u, u_moments[1:], v, v_moments[1:], strict=False)
    return _sums(one * moment_v + other * moment_u - a * one * other for a, one, moment_u, other, moment_v in knots)
