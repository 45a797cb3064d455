"""Normal and Student distributions, effective degrees of freedom, conformity, and mixtures of normals."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import erfc, exp, fsum, inf, isinf, lgamma, log, log1p, sqrt
from statistics import NormalDist

_NORMAL = NormalDist()
MANY = 1e7  # degrees of freedom from which a Student's distribution is taken as normal


def normal_cdf(z: float) -> float:
    """P(Z <= z) of the standard normal."""
    return 0.5 * erfc(-z / sqrt(2))


def normal_sf(z: float) -> float:
    """P(Z > z) of the standard normal, exact far out too."""
    return 0.5 * erfc(z / sqrt(2))


def normal_quantile(p: float) -> float:
    """z with P(Z <= z) = p, 0 < p < 1. Raises ValueError outside."""
    if not 0 < p < 1:
        raise ValueError(f"a chance between 0 and 1, not {p}")
    z = _NORMAL.inv_cdf(p)
    density = exp(-z * z / 2) / 2.5066282746310002
    return z - (normal_cdf(z) - p) / density if density > 0 else z


def student_sf(t: float, degrees: float) -> float:
    """P(T > t) of Student's distribution with so many degrees of freedom (above 0; inf is the normal)."""
    if isinf(degrees) or degrees > MANY:
        return normal_sf(t)
    if t == 0:
        return 0.5
    tail = 0.5 * _incomplete_beta(degrees / 2, 0.5, degrees / (degrees + t * t))
    return tail if t > 0 else 1 - tail


def student_cdf(t: float, degrees: float) -> float:
    """P(T <= t) of Student's distribution with so many degrees of freedom (above 0; inf is the normal)."""
    return student_sf(-t, degrees)


def student_quantile(p: float, degrees: float) -> float:
    """t with P(T <= t) = p, 0 < p < 1. Raises ValueError outside."""
    if not 0 < p < 1:
        raise ValueError(f"a chance between 0 and 1, not {p}")
    if isinf(degrees) or degrees > MANY:
        return normal_quantile(p)
    if p < 0.5:
        return -student_quantile(1 - p, degrees) if p > 1e-9 else -_upper(p, degrees)
    return _upper(1 - p, degrees)


def _upper(tail: float, degrees: float) -> float:
    """t with P(T > t) = tail, tail at most one half."""
    high = 1.0
    while student_sf(high, degrees) > tail:
        high *= 2
        if high > 1e150:
            return high
    return _bisect(lambda t: tail - student_sf(t, degrees), 0.0, high)


def _bisect(function: Callable[[float], float], low: float, high: float) -> float:
    """Where an increasing function crosses nought between low and high, to the last digits."""
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if function(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _incomplete_beta(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function I_x(a, b), by its continued fraction (modified Lentz)."""
    if x <= 0:
        return 0.0
    if x >= 1:
        return 1.0
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x))
    if x < (a + 1) / (a + b + 2):
        return front * _beta_fraction(a, b, x) / a
    return 1 - front * _beta_fraction(b, a, 1 - x) / b


def _beta_fraction(a: float, b: float, x: float) -> float:
    tiny = 1e-300
    c, d = 1.0, 1 - (a + b) * x / (a + 1)
    d = 1 / (d if abs(d) > tiny else tiny)
    result = d
    for m in range(1, 10_000):
        for numerator in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1 + numerator * d
            d = 1 / (d if abs(d) > tiny else tiny)
            c = 1 + numerator / c
            c = c if abs(c) > tiny else tiny
            result *= c * d
        if abs(c * d - 1) < 1e-16:
            break
    return result


def effective_degrees(parts: Iterable[tuple[float, float]]) -> float:
    """Welch–Satterthwaite: degrees of freedom of a sum from its parts' (standard deviation, degrees; inf allowed).

    Source: JCGM 100:2008 (GUM), G.4.1. A sum without width has no end of them.
    """
    listed = [(sd, degrees) for sd, degrees in parts if sd > 0]
    variance = fsum(sd * sd for sd, _ in listed)
    below = fsum(sd**4 / degrees for sd, degrees in listed if not isinf(degrees))
    return variance * variance / below if below > 0 else inf


def within(low: float, high: float, mean: float, sd: float) -> float:
    """The chance that a normal value lies from low to high. Source: JCGM 106:2012, clause 7. sd 0: 0 or 1."""
    if sd <= 0:
        return 1.0 if low <= mean <= high else 0.0
    if mean > (low + high) / 2:  # the same tail either way, so that small chances keep their digits
        low, high, mean = -high, -low, -mean
    return max(0.0, normal_sf((low - mean) / sd) - normal_sf((high - mean) / sd))


Part = tuple[float, float, float]  # weight, mean, standard deviation


def mixture_cdf(x: float, parts: Sequence[Part]) -> float:
    """P(X <= x) of a mixture of normals; weights add up to 1; a part of sd 0 is a step."""
    return fsum(weight * (normal_cdf((x - mean) / sd) if sd > 0 else float(x >= mean)) for weight, mean, sd in parts)


def mixture_quantile(p: float, parts: Sequence[Part]) -> float:
    """x with P(X <= x) = p, 0 < p < 1. Raises ValueError outside."""
    z = normal_quantile(p)
    ends = [mean + z * sd for _, mean, sd in parts]
    low, high = min(ends), max(ends)
    return low if low == high else _bisect(lambda x: mixture_cdf(x, parts) - p, low, high)


def mixture_mean_sd(parts: Sequence[Part]) -> tuple[float, float]:
    """Mean and standard deviation of a mixture."""
    mean = fsum(weight * mean for weight, mean, _ in parts)
    variance = fsum(weight * (sd * sd + (m - mean) ** 2) for weight, m, sd in parts)
    return mean, sqrt(variance)
