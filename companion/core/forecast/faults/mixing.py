"""What the weighed hypotheses make of a length: their shifts, put together where they are nearly the same.

A forecast asks this of several lengths with the same hypotheses, so what does not depend on the length is gathered
once.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from math import log

from msgspec import Struct

from companion.core.forecast.faults.candidates import SizedFault
from companion.core.forecast.faults.hypothesis import Hypothesis
from companion.core.forecast.faults.hypothesis_cache import PreparedHypothesis
from companion.core.forecast.faults.weighed import WeighedHypothesis

BINS_A_SD = 4  # parts of a mixture nearer than a quarter of their width are put together

Term = tuple[int, float, float]  # a hypothesis by its place, the size by which lengths are foretold, and its variance


class Terms(Struct, frozen=True):
    """The weighed candidates as a mixture needs them. `prepared`: the hypotheses, which the others name by their place
    (from 0).

    `alone`: of each hypothesis its sizes that stand alone and are sure, each with its chance. `others`: of all other
    candidates the chance, their own term, and that of the fault that they come beside, None for none.
    """

    prepared: tuple[PreparedHypothesis, ...]
    alone: tuple[tuple[int, tuple[tuple[float, float], ...]], ...]
    others: tuple[tuple[float, Term, Term | None], ...]


def terms(weighed: Iterable[WeighedHypothesis]) -> Terms:
    """What every mixture asks of these candidates, gathered once."""
    places: dict[int, int] = {}
    prepared: list[PreparedHypothesis] = []
    alone: dict[int, list[tuple[float, float]]] = defaultdict(list)
    others: list[tuple[float, Term, Term | None]] = []

    def place_of(one: PreparedHypothesis) -> int:
        place = places.setdefault(id(one), len(prepared))
        if place == len(prepared):
            prepared.append(one)
        return place

    def beside(one: SizedFault) -> Term:
        return place_of(one.prepared), *(one.untold or (one.size, one.size_variance))

    latest, place = None, 0
    for found in weighed:
        one = found.candidate
        if one.prepared is not latest:  # the sizes of a hypothesis follow each other
            latest, place = one.prepared, place_of(one.prepared)
        size, variance = one.untold or (one.size, one.size_variance)
        if one.first is None and not variance:
            alone[place].append((found.p, size))
            continue
        others.append((found.p, (place, size, variance), None if one.first is None else beside(one.first)))
    sizes = tuple((place, tuple(own)) for place, own in alone.items())
    return Terms(tuple(prepared), sizes, tuple(others))


def binned(
    found: Terms,
    p_nothing: float,
    width_mm: float,
    covariances: Sequence[float],
    unit_shift: Callable[[Hypothesis], float],
) -> Iterable[list[float]]:
    """The shifts of a length, those within `width_mm` of each other and as wide put together: of each such bin the
    chance, and the sums of chance times shift, mm, and of chance times variance, mm². `p_nothing`: the chance of none.

    `covariances`: L^-1 of the length's covariances with the readings; `unit_shift`: what a hypothesis of size 1 does to
    the length before anything is read, mm. What the readings say of it is taken off.
    """
    explained = [prepared.inner(covariances) for prepared in found.prepared]
    by_one = [unit_shift(one.hypothesis) - known for one, known in zip(found.prepared, explained, strict=True)]
    bins = _sure(found, p_nothing, width_mm, by_one)
    wide = _unsure(found, width_mm, by_one, explained, bins)
    return (*bins.values(), *wide.values())


def _sure(found: Terms, p_nothing: float, width_mm: float, by_one: Sequence[float]) -> dict[int, list[float]]:
    """The bins of faults of a sure size, by shift. `by_one`: the shift for a size of 1, mm."""
    bins: dict[int, list[float]] = {0: [p_nothing, 0.0, 0.0]}  # of a sure size, by shift
    for place, sizes in found.alone:
        one_mm = by_one[place]
        for p, size in sizes:
            shift_mm = size * one_mm
            key = round(shift_mm / width_mm)
            if key in bins:
                own = bins[key]
                own[0] += p
                own[1] += p * shift_mm
            else:
                bins[key] = [p, p * shift_mm, 0.0]
    return bins


def _unsure(
    found: Terms, width_mm: float, by_one: Sequence[float], explained: Sequence[float], bins: dict[int, list[float]]
) -> dict[tuple[int, int], list[float]]:
    """Those of an unsure size, by shift and variance; one that is sure after all goes in the `bins`."""
    wide: dict[tuple[int, int], list[float]] = {}  # of an unsure size, by shift and variance
    for p, (place, size, size_variance), first in found.others:
        shift_mm, variance = size * by_one[place], size_variance * explained[place] ** 2
        if first is not None:
            place, size, size_variance = first
            shift_mm += size * by_one[place]
            variance += size_variance * explained[place] ** 2
        key, wider = round(shift_mm / width_mm), 0
        if variance:
            wider = round(BINS_A_SD * log(1 + variance / width_mm**2))
        own = wide.setdefault((key, wider), [0.0, 0.0, 0.0]) if wider else bins.setdefault(key, [0.0, 0.0, 0.0])
        own[0] += p
        own[1] += p * shift_mm
        own[2] += p * variance
    return wide
