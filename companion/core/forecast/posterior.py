"""The posterior of all fault hypotheses, by Bayes over the forecast's own factor, and what it makes of any length."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from math import exp, fsum, log, sqrt
from operator import attrgetter
from typing import NamedTuple

from msgspec import Struct

from companion.core.forecast.hypothesis import MISREAD, FaultKind, Hypothesis
from companion.core.forecast.hypothesis_cache import PreparedHypothesis
from companion.core.forecast.outlook import Fault
from companion.core.maths.mixtures import Part
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import Assumptions

NEGLIGIBLE = 1e-7  # a hypothesis less likely than this is left out of a forecast
BINS_A_SD = 4  # parts of a mixture nearer than a quarter of their width are put together


class WeighedHypothesis(NamedTuple):
    """One hypothesis of one size with its posterior; all of them and "nothing wrong" add up to 1.

    `size_variance`: above 0 where the size may be any, and not one of a few; then `size` is the likeliest. `begun`:
    whether any reading could have shown it.
    """

    prepared: PreparedHypothesis
    size: float
    kind: FaultKind
    p: float
    size_variance: float
    begun: bool

    @property
    def hypothesis(self) -> Hypothesis:
        return self.prepared.hypothesis


class FaultPosterior(Struct, frozen=True):
    """All hypotheses that are not negligible, and the chance that nothing has gone wrong or will."""

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

    def mixture(
        self, mean_mm: float, sd_mm: float, covariances: Sequence[float], unit_shift: Callable[[Hypothesis], float]
    ) -> list[Part]:
        """A length as a mixture of normals, mm. `mean_mm`, `sd_mm`: with nothing wrong; `covariances`: L^-1 of its
        covariances with the readings; `unit_shift`: what a hypothesis of size 1 does to it."""
        width = max(sd_mm, 1e-9) / BINS_A_SD
        weights: dict[int, float] = defaultdict(float, {0: self.p_nothing})
        moments: dict[int, float] = defaultdict(float)
        apart: list[Part] = []
        for prepared, sizes in groupby(self.weighed, key=attrgetter("prepared")):
            explained = prepared.inner(covariances)
            moved = unit_shift(prepared.hypothesis) - explained
            for one in sizes:
                if one.size_variance:
                    sd = sqrt(sd_mm**2 + one.size_variance * explained * explained)
                    apart.append((one.p, mean_mm + one.size * moved, sd))
                    continue
                place = round(one.size * moved / width)
                weights[place] += one.p
                moments[place] += one.p * (one.size * moved)
        return [(p, mean_mm + moments[place] / p, sd_mm) for place, p in weights.items() if p > 0] + apart


_Candidate = tuple[PreparedHypothesis, float, FaultKind, float, float]  # hypothesis, size, kind, log weight, variance


def weigh(
    hypotheses: Sequence[PreparedHypothesis], innovation: Sequence[float], assumptions: Assumptions
) -> FaultPosterior:
    """The posterior of these hypotheses, given the readings' whitened innovation."""
    found = [one for prepared in hypotheses for one in _candidates(prepared, innovation, assumptions)]
    nothing = log(1 - min(0.9, fsum(prepared.hypothesis.prior for prepared in hypotheses)))
    top = max([nothing, *(log_weight for _, _, _, log_weight, _ in found)])
    total = exp(nothing - top) + fsum(exp(log_weight - top) for _, _, _, log_weight, _ in found)
    least = top + log(NEGLIGIBLE * total)
    weighed = tuple(
        WeighedHypothesis(prepared, size, kind, exp(log_weight - top) / total, variance, prepared.begun)
        for prepared, size, kind, log_weight, variance in found
        if log_weight > least
    )
    return FaultPosterior(exp(nothing - top) / total, weighed)


def _candidates(
    prepared: PreparedHypothesis, innovation: Sequence[float], assumptions: Assumptions
) -> Iterator[_Candidate]:
    """A hypothesis in each of its sizes, with the log of prior times likelihood."""
    inner, square = (prepared.inner(innovation), prepared.square()) if prepared.begun else (0.0, 0.0)
    for (size, _, kind), log_prior in zip(prepared.hypothesis.sizes, prepared.log_priors, strict=True):
        yield prepared, size, kind, log_prior + size * inner - size * size * square / 2, 0.0
    if prepared.hypothesis.reading is not None and square > 0:
        yield _misread_by_any(prepared, inner, square, assumptions.prior_gross_misread, assumptions.gross_misread_mm)
        yield _misread_by_any(prepared, inner, square, assumptions.prior_wild_misread, assumptions.wild_misread_mm)


def _misread_by_any(
    prepared: PreparedHypothesis, inner: float, square: float, prior: float, sd_mm: float
) -> _Candidate:
    """A reading that has nothing to do with the strand: off by anything, normal and wide; its size is summed out."""
    variance = 1 / (square + 1 / sd_mm**2)
    log_weight = log(prior) + inner * inner * variance / 2 - log(1 + sd_mm**2 * square) / 2
    return prepared, inner * variance, MISREAD, log_weight, variance


def faults_of(plan: Plan, posterior: FaultPosterior) -> tuple[Fault, ...]:
    """The kinds of fault that may have happened, each with its chance and where it most likely began, as steps."""
    faults = []
    for kind, p in posterior.by_kind().items():
        likeliest = max((one for one in posterior.weighed if one.kind == kind and one.begun), key=lambda one: one.p)
        entry, first, last = likeliest.hypothesis.segment
        detail = likeliest.hypothesis.detail
        steps = plan.strands[entry].steps
        inside = [step.number for step in steps if step.kind == "string" and first < step.elements <= last]
        # A free-cord reading is weighed as cord used: too much of the one is too little of the other.
        off_mm = 0.0 if kind != MISREAD else -likeliest.size if detail == "free" else likeliest.size
        faults.append(Fault(kind, p, entry, min(inside, default=1), max(inside, default=1), detail, off_mm))
    return tuple(faults)
