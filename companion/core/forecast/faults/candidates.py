"""Each fault hypothesis in each of its sizes, with the log of prior times likelihood: alone, and as a second fault
beside a first.

Let u be the readings' innovation and d, e the shifts of two hypotheses, all whitened. Beside a first fault of size s, a
second is weighed as if it stood alone, with u − s d for u: its inner product is e·u − s d·e. Where the first may have
any size, of variance v, what it can explain is taken out of the second's own square as well: e·e − v (d·e)².
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from math import exp, fsum, log
from operator import attrgetter, itemgetter, mul

from msgspec import Struct
from msgspec.structs import replace

from companion.core.forecast.faults.hypothesis import MISREAD, FaultKind
from companion.core.forecast.faults.hypothesis_cache import PreparedHypothesis
from companion.core.values.assumptions import Assumptions

LEAST_SECOND = 1e-5  # a pair less likely than this is left out
LEAST_SQUARE = 1e-9  # below it nothing that was read could show a fault


class SizedFault(Struct, frozen=True):
    """A hypothesis of one size. `log_weight`: of prior times likelihood; `size_variance`: above 0 where the size may
    be any, then `size` is the likeliest. `first`: the fault that it comes beside, if it is a second. `untold`: of a
    reading that was misread, the size and its variance with nothing known of the slip: what it says of the strand then
    is nothing."""

    prepared: PreparedHypothesis
    size: float
    kind: FaultKind
    log_weight: float
    size_variance: float = 0.0
    first: SizedFault | None = None
    untold: tuple[float, float] | None = None


def candidates(
    prepared: PreparedHypothesis, inner: float, square: float, assumptions: Assumptions
) -> Iterator[SizedFault]:
    """A hypothesis in each of its sizes. `inner`: of a size of 1 with the readings' innovation; `square`: of a size of
    1 with itself."""
    misread = prepared.hypothesis.reading is not None and square > LEAST_SQUARE
    untold = (inner / square, 1 / square) if misread else None
    for one, log_prior in zip(prepared.hypothesis.sizes, prepared.log_priors, strict=True):
        size = one.size
        log_weight = log_prior + size * inner - size * size * square / 2
        yield SizedFault(prepared, size, one.kind, log_weight, untold=untold)
    if misread:
        yield _misread_by_any(prepared, inner, square, assumptions.prior_gross_misread, assumptions.gross_misread_mm)
        yield _misread_by_any(prepared, inner, square, assumptions.prior_wild_misread, assumptions.wild_misread_mm)


def _misread_by_any(
    prepared: PreparedHypothesis, inner: float, square: float, prior: float, sd_mm: float
) -> SizedFault:
    """A reading that has nothing to do with the strand: off by anything, normal and wide; its size is summed out."""
    variance = 1 / (square + 1 / sd_mm**2)
    log_weight = log(prior) + inner * inner * variance / 2 - log(1 + sd_mm**2 * square) / 2
    return SizedFault(prepared, inner * variance, MISREAD, log_weight, variance)


def second_faults(
    hypotheses: Sequence[tuple[PreparedHypothesis, float, float]],
    alone: Sequence[SizedFault],
    log_total: float,
    assumptions: Assumptions,
) -> Iterator[SizedFault]:
    """Second faults, begun or still to come, beside a first one. Of each kind of first fault that is likely at all the
    likeliest candidate stands for the whole kind.

    `hypotheses`: each with its inner product and its square, as `candidates` takes them; `alone`: all of them, each
    with nothing else wrong; `log_total`: log of the sum of all weights, "nothing wrong" among them.
    """
    log_least = log_total + log(LEAST_SECOND)
    begun = [one for one in alone if one.prepared.begun and one.log_weight > log_least]
    done: list[PreparedHypothesis] = []
    for p, first in _firsts(begun, log_total):
        if p < assumptions.second_fault_above:
            break
        for prepared, inner, square in hypotheses:
            # What is still to come is weighed beside the likeliest alone: it is the same beside any other.
            if prepared is first.prepared or prepared in done or (done and not prepared.begun):
                continue
            yield from _beside(first, prepared, inner, square, log_total + log(p), log_least, assumptions)
        done.append(first.prepared)


def _firsts(begun: Sequence[SizedFault], log_total: float) -> list[tuple[float, SizedFault]]:
    """The likeliest candidate of each kind, with the chance of its kind; the likeliest kind first."""
    kinds: dict[FaultKind, list[SizedFault]] = defaultdict(list)
    for one in begun:
        kinds[one.kind].append(one)
    found = [
        (fsum(exp(one.log_weight - log_total) for one in own), max(own, key=attrgetter("log_weight")))
        for own in kinds.values()
    ]
    return sorted(found, key=itemgetter(0), reverse=True)


def _beside(
    first: SizedFault,
    prepared: PreparedHypothesis,
    inner: float,
    square: float,
    log_mass: float,
    log_least: float,
    assumptions: Assumptions,
) -> Iterator[SizedFault]:
    """One hypothesis in each of its sizes beside a first fault, which weighs `log_mass`; none under `log_least`."""
    cross = sum(map(mul, first.prepared.unit_shift, prepared.unit_shift)) if prepared.begun else 0.0
    inner, square = inner - first.size * cross, square - first.size_variance * cross * cross
    best = inner * inner / square / 2 if square > 1e-12 else 0.0
    if log_mass + max(prepared.log_priors) + best < log_least:
        return
    for one in candidates(prepared, inner, square, assumptions):
        if log_mass + one.log_weight < log_least or (one.size_variance and first.size_variance):
            continue
        untold = first.untold and (first.untold[0] - first.untold[1] * cross * one.size, first.untold[1])
        moved = replace(first, size=first.size - first.size_variance * cross * one.size, untold=untold)
        yield replace(one, log_weight=log_mass + one.log_weight, first=moved)
