"""Normal and Student distributions, effective degrees of freedom, and conformity."""

from __future__ import annotations

from collections.abc import Iterable
from math import erfc, exp, fsum, gamma, hypot, inf, isinf, log, log1p, pi, sqrt

_FAR = 1e8  # beyond, 1 is nothing beside the square of it
_SERIES_FROM = 1e4  # degrees: above, the series of _far_tail has more digits and takes fewer turns than the fraction

# Powers of 1/a in gamma(a + 1/2) / (gamma(a) sqrt(a)). Source: NIST DLMF 5.11.13, worked out for this ratio.
_RATIO = (1.0, -1 / 8, 1 / 128, 5 / 1024, -21 / 32768, -399 / 262144)
# Powers of q in sqrt(2 q / (1 - exp(-2 q))), the series of _far_tail.
_SPREAD = (1 / 2, 1 / 24, -1 / 48, -1 / 640, 19 / 11520, 79 / 967680)


def normal_cdf(z: float) -> float:
    """P(Z <= z) of the standard normal, with all its digits far out on the left."""
    return 0.5 * erfc(-z / sqrt(2))


def normal_sf(z: float) -> float:
    """P(Z > z) of the standard normal, with all its digits far out on the right."""
    return 0.5 * erfc(z / sqrt(2))


def normal_quantile(p: float) -> float:
    """z with P(Z <= z) = p, 0 < p < 1. Raises ValueError outside.

    Source: Wichura, algorithm AS 241, Applied Statistics 37 (1988), as the standard library has it: about 1e-16.
    """
    from statistics import NormalDist  # the slowest module to load of all that a quick command may come to

    _check_chance(p)
    return NormalDist().inv_cdf(p)


def _check_chance(p: float) -> None:
    if not 0 < p < 1:
        raise ValueError(f"a chance between 0 and 1, not {p}")


def _check_degrees(degrees: float) -> None:
    if not degrees > 0:
        raise ValueError(f"degrees of freedom above 0, not {degrees}")


def student_sf(t: float, degrees: float) -> float:
    """P(T > t) of Student's distribution with so many degrees of freedom (above 0, whole or not; inf: the normal).
    Small chances keep their digits. Raises ValueError for degrees of 0 or less.

    Source: Abramowitz and Stegun 26.7.1 with 26.5 (incomplete beta function).
    """
    _check_degrees(degrees)
    if isinf(degrees):
        return normal_sf(t)
    _, tails = _middle_and_tails(abs(t), degrees)
    return tails / 2 if t > 0 else 1 - tails / 2


def student_quantile(p: float, degrees: float) -> float:
    """t with P(T <= t) = p, 0 < p < 1; degrees as in student_sf. Raises ValueError outside.

    Infinite where t is too large for a float (a minute p with few degrees).
    """
    _check_chance(p)
    _check_degrees(degrees)
    if isinf(degrees):
        return normal_quantile(p)
    if p < 0.5:
        return -_positive_quantile(1 - 2 * p, 2 * p, degrees)
    return _positive_quantile(2 * p - 1, 2 * (1 - p), degrees)


def _positive_quantile(middle: float, tails: float, degrees: float) -> float:
    """t of 0 or more with P(|T| <= t) = middle = 1 - tails.

    Newton's method on the logarithms of t and of the smaller share: there both shares are concave, so that a step lands
    short of the root (middle) or beyond it (tails) and never leaves that side again.
    """
    if middle == 0:
        return 0.0
    by_tails = tails < middle
    wanted = log(tails if by_tails else middle)
    t = near = middle * sqrt(pi / 2)  # that of a density as high as the normal's peak: no Student's t lies below it
    for _ in range(100):
        share = _middle_and_tails(t, degrees)[by_tails]
        if isinf(t):
            break
        if share == 0:  # beyond what a float can hold: half the way back
            t = sqrt(near) * sqrt(t)
            continue
        near = t
        step = (log(share) - wanted) * share / (2 * _front(t, degrees))
        t *= exp(min(step if by_tails else -step, 600.0))
        if abs(step) < 1e-9:  # each step squares the error
            break
    return t


def _middle_and_tails(t: float, degrees: float) -> tuple[float, float]:
    """P(|T| <= t) and P(|T| > t), t of 0 or more. Each has all its digits where it is the smaller by far."""
    if isinf(t):
        return 1.0, 0.0
    if degrees >= _SERIES_FROM and t * t > 3:
        tails = _far_tail(t, degrees)
        return 1 - tails, tails
    half, square = degrees / 2, (t / sqrt(degrees)) * (t / sqrt(degrees))
    beyond = 1 / (1 + square)  # both shares are incomplete beta functions of this
    if square * (degrees + 2) < 3:
        middle = 2 * _front(t, degrees) * _beta_fraction(0.5, half, square * beyond)
        return middle, 1 - middle
    tails = _front(t, degrees) * _beta_fraction(half, 0.5, beyond) / half
    return 1 - tails, tails


def _front(t: float, degrees: float) -> float:
    """t times the density at t: x^a (1 - x)^(1/2) / B(a, 1/2); a = degrees / 2, x = 1 / (1 + t^2 / degrees)."""
    half, reach = degrees / 2, t / sqrt(degrees)
    power = exp(-half * _log_stretch(t, degrees))
    slope = reach / hypot(1, reach) if reach < _FAR else 1.0  # beyond the largest float there is no quotient
    return power * slope * sqrt(half / pi) * _gamma_ratio(half)


def _log_stretch(t: float, degrees: float) -> float:
    """log(1 + t^2 / degrees), for a t^2 too large for a float as well."""
    reach = t / sqrt(degrees)
    return log1p(reach * reach) if reach < _FAR else 2 * log(t) - log(degrees)


def _gamma_ratio(a: float) -> float:
    """gamma(a + 1/2) / (gamma(a) sqrt(a)), which nears 1 as a grows."""
    if a <= 100:
        return gamma(a + 0.5) / gamma(a) / sqrt(a)
    return fsum(term * a**-power for power, term in enumerate(_RATIO))


def _far_tail(t: float, degrees: float) -> float:
    """P(|T| > t) for many degrees: a normal tail and a short series beside it.

    With w^2 = degrees log(1 + t^2 / degrees) the density of w is exp(-w^2 / 2) sqrt(2 q / (1 - exp(-2 q))) but for a
    factor, q = w^2 / (2 degrees). The root is a power series, and each power of w a tail moment of the normal.
    """
    square = degrees * _log_stretch(t, degrees)
    edge = sqrt(square) * exp(-square / 2)
    moment = sqrt(2 * pi) * normal_sf(sqrt(square))
    total, scale = moment, 1.0
    for power, term in enumerate(_SPREAD, 1):
        moment = edge + (2 * power - 1) * moment
        edge *= square
        scale /= 2 * degrees
        total += term * scale * moment
    return 2 * total * _gamma_ratio(degrees / 2) / sqrt(2 * pi)


def _beta_fraction(a: float, b: float, x: float) -> float:
    """The continued fraction of the incomplete beta function, modified Lentz. Source: NIST DLMF 8.17.22."""
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
        if abs(c * d - 1) < 4e-16:
            break
    return result


def effective_degrees(parts: Iterable[tuple[float, float]]) -> float:
    """Welch–Satterthwaite: degrees of freedom of a sum from its parts' (standard deviation, degrees; inf allowed).

    Source: JCGM 100:2008 (GUM), G.4.1. A sum without width has no end of them.
    """
    listed = [(sd, degrees) for sd, degrees in parts if sd > 0]
    widest = max((sd for sd, _ in listed), default=1.0)  # only shares count, and their fourth powers stay in range
    squares = [((sd / widest) ** 2, degrees) for sd, degrees in listed]
    total = fsum(square for square, _ in squares)
    below = fsum(square * square / degrees for square, degrees in squares)
    return total * total / below if below > 0 else inf


def within(low: float, high: float, mean: float, sd: float) -> float:
    """The chance that a normal value lies from low to high. Source: JCGM 106:2012, clause 7. sd 0: 0 or 1."""
    if sd <= 0:
        return 1.0 if low <= mean <= high else 0.0
    if mean > (low + high) / 2:  # the same tail either way, so that small chances keep their digits
        low, high, mean = -high, -low, -mean
    return max(0.0, normal_sf((low - mean) / sd) - normal_sf((high - mean) / sd))
