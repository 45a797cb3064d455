"""Least-squares lines: through the origin, and straight with an intercept. Sums are exact, means taken off first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, hypot, sqrt
from typing import NamedTuple


class OriginFit(NamedTuple):
    """y = slope x. Standard deviations as JCGM 100:2008 (GUM), H.3, states them: from the scatter about the line."""

    slope: float
    slope_sd: float
    residual_sd: float
    degrees: int  # points less one


@dataclass(frozen=True, slots=True)
class LineFit:
    """y = intercept + slope x. Standard deviations, and the covariance of intercept and slope, from the scatter."""

    intercept: float
    slope: float
    intercept_sd: float
    slope_sd: float
    covariance: float
    residual_sd: float
    degrees: int  # points less two

    def at(self, x: float) -> tuple[float, float]:
        """The line's y at x and its standard deviation (the line's alone, not that of one more reading).

        Source: JCGM 100:2008 (GUM), H.3.4.
        """
        value = self.intercept + x * self.slope
        if self.residual_sd == 0:
            return value, 0.0
        # From the middle of the points outwards: the book's sum of three terms cancels where the origin is far away.
        middle_x = -self.covariance / self.slope_sd**2
        return value, hypot(self.residual_sd / sqrt(self.degrees + 2), self.slope_sd * (x - middle_x))


def line_through_origin(xs: Sequence[float], ys: Sequence[float]) -> OriginFit:
    """The least-squares line through the origin, in the units of ys per xs.

    Raises ValueError for fewer than two points, for lists of two lengths, and where every x is 0.
    """
    _check(xs, ys, least=2)
    square = fsum(x * x for x in xs)
    if square == 0:
        raise ValueError("an x other than 0, for a line through the origin")
    slope = fsum(x * y for x, y in zip(xs, ys, strict=True)) / square
    degrees = len(xs) - 1
    residual_sd = sqrt(fsum((y - slope * x) ** 2 for x, y in zip(xs, ys, strict=True)) / degrees)
    return OriginFit(slope, residual_sd / sqrt(square), residual_sd, degrees)


def straight_line(xs: Sequence[float], ys: Sequence[float]) -> LineFit:
    """The least-squares straight line.

    Raises ValueError for fewer than three points, for lists of two lengths, and where all x are alike.
    """
    _check(xs, ys, least=3)
    count = len(xs)
    middle_x, middle_y = fsum(xs) / count, fsum(ys) / count
    across = [x - middle_x for x in xs]
    up = [y - middle_y for y in ys]
    if min(xs) == max(xs):
        raise ValueError(f"two values of x that differ, not {xs[0]} alone")
    square = fsum(dx * dx for dx in across)
    slope = fsum(dx * dy for dx, dy in zip(across, up, strict=True)) / square
    degrees = count - 2
    variance = fsum((dy - slope * dx) ** 2 for dx, dy in zip(across, up, strict=True)) / degrees
    return LineFit(
        intercept=middle_y - slope * middle_x,
        slope=slope,
        intercept_sd=sqrt(variance * (1 / count + middle_x * middle_x / square)),
        slope_sd=sqrt(variance / square),
        covariance=-variance * middle_x / square,
        residual_sd=sqrt(variance),
        degrees=degrees,
    )


def _check(xs: Sequence[float], ys: Sequence[float], least: int) -> None:
    if len(xs) != len(ys):
        raise ValueError(f"as many y as x, not {len(ys)} for {len(xs)}")
    if len(xs) < least:
        raise ValueError(f"at least {least} points, not {len(xs)}")
