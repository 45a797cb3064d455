"""Mixtures of normal distributions: chances, quantiles, mean and standard deviation."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import erfc, exp, fsum, inf, sqrt

from companion.core.maths.distributions import normal_cdf, normal_quantile

MOST_STEPS = 200  # of a search for a quantile; a dozen is usual
FINEST_SDS = 1e-12  # of the whole mixture: nearer a quantile need not be; a step squares what was left before it
_ROOT_HALF = sqrt(0.5)

Part = tuple[float, float, float]  # weight, mean, standard deviation


def mixture_cdf(x: float, parts: Sequence[Part]) -> float:
    """P(X <= x) of a mixture of normals; weights add up to 1; a part of sd 0 is a step."""
    return fsum(weight * (normal_cdf((x - mean) / sd) if sd > 0 else float(x >= mean)) for weight, mean, sd in parts)


def mixture_quantile(p: float, parts: Sequence[Part]) -> float:
    """The least x with P(X <= x) of at least p, 0 < p < 1. Raises ValueError outside, or for no parts."""
    z = normal_quantile(p)
    ends = [mean + z * sd for _, mean, sd in parts]
    low, high = min(ends), max(ends)  # left of every part's quantile the whole has less than p, right of all more
    if low == high:
        return low
    if all(sd > 0 for _, _, sd in parts):
        return _smooth_quantile(p, parts, low, high)
    return _bisect(lambda x: mixture_cdf(x, parts) - p, low, high)


def _smooth_quantile(p: float, parts: Sequence[Part], low: float, high: float) -> float:
    """By Newton's steps from where one normal would have it, halving where a step would lead out of [low, high].

    The steps are taken on the normal's scale, where a mixture that is nearly normal is nearly a straight line.
    """
    middle, wide = mixture_mean_sd(parts)
    wanted = normal_quantile(p)
    finest = max(1e-15 * max(abs(low), abs(high)), FINEST_SDS * wide)
    x = middle + wanted * wide
    x = x if low < x < high else low + (high - low) / 2
    for _ in range(MOST_STEPS):
        total = density = 0.0
        for weight, mean, sd in parts:
            z = (x - mean) / sd
            total += weight * erfc(-z * _ROOT_HALF) / 2
            density += weight * exp(-z * z / 2) / sd
        if total < p:
            low = x
        else:
            high = x
        step = inf
        if density > 0 and 0 < total < 1:
            reached = normal_quantile(total)
            step = (reached - wanted) * exp(-reached * reached / 2) / density
        if abs(step) <= finest:  # there: so small a step may not leave an end of the range
            return x - step
        new = x - step if low < x - step < high else low + (high - low) / 2
        if abs(new - x) <= finest or new in (low, high):
            return new
        x = new
    return x


def _bisect(function: Callable[[float], float], low: float, high: float) -> float:
    """The least value from low to high at which an increasing function has reached nought, to the last digits."""
    if function(low) >= 0:
        return low
    finest = 1e-20 * max(abs(low), abs(high))
    while high - low > finest:
        middle = low + (high - low) / 2
        if middle in (low, high):
            break
        if function(middle) < 0:
            low = middle
        else:
            high = middle
    return high


def mixture_mean_sd(parts: Sequence[Part]) -> tuple[float, float]:
    """Mean and standard deviation of a mixture; weights add up to 1."""
    mean = fsum(weight * mean for weight, mean, _ in parts)
    variance = fsum(weight * (sd * sd + (m - mean) ** 2) for weight, m, sd in parts)
    return mean, sqrt(variance)
