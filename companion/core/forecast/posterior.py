"""Weighing the stories by Bayes over the forecast's own factor, and what they make of a length still to come."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp, fsum, log, sqrt
from typing import NamedTuple

from companion.core.forecast.hypotheses import MISREAD, FaultKind, Hypothesis
from companion.core.forecast.hypothesis_cache import PreparedHypothesis
from companion.core.forecast.outlook import Fault
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import Assumptions

NEGLIGIBLE = 1e-7  # a story less likely than this is left out of a forecast
BINS_A_SD = 4  # parts of a mixture nearer than a quarter of their width are put together


class WeighedHypothesis(NamedTuple):
    """One story of one size with its chance, all stories and "nothing wrong" together being 1.

    `loose`: the variance of the size, where it is not one of a few but any: then `size` is its likeliest.
    """

    prepared: PreparedHypothesis
    size: float
    kind: FaultKind
    p: float
    loose: float
    begun: bool

    @property
    def hypothesis(self) -> Hypothesis:
        return self.prepared.hypothesis


@dataclass(frozen=True, slots=True)
class FaultPosterior:
    """All stories that count, and the chance that nothing has gone wrong or will."""

    p_nothing: float
    weighed: tuple[WeighedHypothesis, ...]

    @property
    def p_fault(self) -> float:
        """The chance that something has gone wrong already."""
        return min(1.0, fsum(one.p for one in self.weighed if one.begun))

    def by_kind(self) -> dict[FaultKind, float]:
        """The chance of each kind of fault that has begun, the likeliest first."""
        total: dict[FaultKind, float] = defaultdict(float)
        for one in self.weighed:
            if one.begun:
                total[one.kind] += one.p
        likeliest = sorted(total.items(), key=lambda item: -item[1])
        return {kind: min(1.0, p) for kind, p in likeliest}

    def parts(
        self, mean_mm: float, sd_mm: float, covariances: Sequence[float], shift: Callable[[Hypothesis], float]
    ) -> list[tuple[float, float, float]]:
        """A length as a mixture: (weight, mean, sd), mm. `mean_mm`, `sd_mm`: with nothing wrong; `covariances`: L^-1 of
        its covariances with the readings; `shift`: what a cause of size 1 does to it."""
        width = max(sd_mm, 1e-9) / BINS_A_SD
        weights: dict[int, float] = {0: self.p_nothing}
        moments: dict[int, float] = {0: 0.0}
        apart = []
        before: PreparedHypothesis | None = None
        unit = back = 0.0
        for prepared, size, _, p, loose, _ in self.weighed:
            if prepared is not before:  # the sizes of one cause come together
                before, back = prepared, prepared.along(covariances)
                unit = shift(prepared.hypothesis) - back
            moved = size * unit
            if loose:
                apart.append((p, mean_mm + moved, sqrt(sd_mm**2 + loose * back * back)))
                continue
            place = round(moved / width)
            weights[place] = weights.get(place, 0.0) + p
            moments[place] = moments.get(place, 0.0) + p * moved
        return [(p, mean_mm + moments[place] / p, sd_mm) for place, p in weights.items() if p > 0] + apart


def weigh(faults: Sequence[PreparedHypothesis], whitened: Sequence[float], assumptions: Assumptions) -> FaultPosterior:
    """All stories weighed on the readings of that whitened innovation."""
    found: list[tuple[PreparedHypothesis, float, FaultKind, float, float]] = []
    for prepared in faults:
        along, square = (prepared.along(whitened), prepared.square()) if prepared.begun else (0.0, 0.0)
        for (size, _, kind), log_share in zip(prepared.hypothesis.sizes, prepared.log_shares, strict=True):
            found.append((prepared, size, kind, log_share + size * along - size * size * square / 2, 0.0))
        if prepared.hypothesis.reading is not None and square > 0:
            gross = (assumptions.prior_gross_misread, assumptions.gross_misread_mm)
            wild = (assumptions.prior_wild_misread, assumptions.wild_misread_mm)
            found += (_anything(prepared, along, square, *how) for how in (gross, wild))
    nothing = log(1 - min(0.9, fsum(prepared.hypothesis.prior for prepared in faults)))
    top = max([nothing, *(one[3] for one in found)])
    total = exp(nothing - top) + fsum(exp(one[3] - top) for one in found)
    least = top + log(NEGLIGIBLE * total)
    weighed = tuple(
        WeighedHypothesis(prepared, size, kind, exp(odds - top) / total, loose, prepared.begun)
        for prepared, size, kind, odds, loose in found
        if odds > least
    )
    return FaultPosterior(exp(nothing - top) / total, weighed)


def _anything(
    prepared: PreparedHypothesis, along: float, square: float, prior: float, sd_mm: float
) -> tuple[PreparedHypothesis, float, FaultKind, float, float]:
    """A reading that has nothing to do with the strand: off by anything, normal and wide; its size is summed out."""
    wide = sd_mm**2
    loose = 1 / (square + 1 / wide)
    odds = log(prior) + along * along * loose / 2 - log(1 + wide * square) / 2
    return prepared, along * loose, MISREAD, odds, loose


def faults_of(plan: Plan, posterior: FaultPosterior) -> tuple[Fault, ...]:
    """The kinds of fault that may have happened, each with its chance and where it most likely began, as steps."""
    faults = []
    for kind, p in posterior.by_kind().items():
        likeliest = max((one for one in posterior.weighed if one.kind == kind and one.begun), key=lambda one: one.p)
        best = likeliest.hypothesis
        steps = plan.strands[best.entry].steps
        inside = [step.number for step in steps if step.kind == "string" and best.first < step.elements <= best.last]
        # A free-cord reading is weighed as cord used: too much of the one is too little of the other.
        off_mm = 0.0 if kind != MISREAD else -likeliest.size if best.detail == "free" else likeliest.size
        first, last = min(inside, default=1), max(inside, default=1)
        faults.append(Fault(kind, p, best.entry, first, last, best.detail, off_mm))
    return tuple(faults)
