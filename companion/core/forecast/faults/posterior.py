"""How likely each fault is once the readings are known (Bayes' rule), and what that makes of any length."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Sequence
from functools import cached_property
from math import exp, fsum, log, sqrt
from operator import itemgetter

from msgspec import Struct

from companion.core.forecast.faults.candidates import SizedFault, candidates, second_faults
from companion.core.forecast.faults.hypothesis import MISREAD, FaultKind, Hypothesis
from companion.core.forecast.faults.hypothesis_cache import PreparedHypothesis
from companion.core.forecast.faults.mixing import BINS_A_SD, Terms, binned, terms
from companion.core.forecast.faults.weighed import WeighedHypothesis
from companion.core.forecast.outlook import Fault
from companion.core.maths.mixtures import Part
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import Assumptions

NEGLIGIBLE = 1e-7  # a hypothesis less likely than this is left out of a forecast


class KindOfFault(Struct, frozen=True):
    """A kind of fault that may have happened: its chance, and the likeliest of its candidates."""

    kind: FaultKind
    p: float
    likeliest: SizedFault


class FaultPosterior:
    """All candidates that are not negligible, and the chance that nothing has gone wrong or will; they add up to 1."""

    def __init__(self, p_nothing: float, weighed: tuple[WeighedHypothesis, ...]) -> None:
        self.p_nothing = p_nothing
        self.weighed = weighed

    @cached_property
    def p_fault(self) -> float:
        """The chance that something has gone wrong already."""
        begun = (found.p for found in self.weighed if found.candidate.first or found.candidate.prepared.begun)
        return min(1.0, sum(begun))

    @cached_property
    def kinds(self) -> tuple[KindOfFault, ...]:
        """What may have gone wrong already, the likeliest first; two faults together count for either."""
        total = defaultdict[FaultKind, float](float)
        likeliest: dict[FaultKind, tuple[float, SizedFault]] = {}
        for found in self.weighed:
            one, p = found.candidate, found.p
            second = one if one.prepared.begun else None
            for fault in (one.first, second):
                if fault is None or (fault is second and one.first and one.first.kind == one.kind):
                    continue
                total[fault.kind] += p
                if fault.kind not in likeliest or likeliest[fault.kind][0] < p:
                    likeliest[fault.kind] = p, fault
        kinds = sorted(total.items(), key=lambda item: -item[1])
        return tuple(KindOfFault(kind, min(1.0, p), likeliest[kind][1]) for kind, p in kinds)

    @cached_property
    def _terms(self) -> Terms:
        return terms(self.weighed)

    def mixture(
        self, mean_mm: float, sd_mm: float, covariances: Sequence[float], unit_shift: Callable[[Hypothesis], float]
    ) -> list[Part]:
        """A length as a mixture of normals, mm. `mean_mm`, `sd_mm`: with nothing wrong; `covariances`: L^-1 of its
        covariances with the readings; `unit_shift`: what a hypothesis of size 1 does to it, mm."""
        width = max(sd_mm, 1e-9) / BINS_A_SD
        found = binned(self._terms, self.p_nothing, width, covariances, unit_shift)
        return [(p, mean_mm + s / p, sqrt(sd_mm**2 + v / p)) for p, s, v in found if p > 0]

    def faults(self, plan: Plan, read_at: Sequence[int] = ()) -> tuple[Fault, ...]:
        """The kinds of fault that may have happened, each with its chance and where it most likely began, as steps.

        `read_at`: the piece's step of each reading, by which one that was misread is named: what is strung there may be
        strung at other readings too.
        """
        faults = []
        strung: dict[int, list[tuple[int, int]]] = {}  # by entry: elements made and number of each step that strings
        for one in self.kinds:
            hypothesis = one.likeliest.prepared.hypothesis
            segment, detail = hypothesis.segment, hypothesis.detail
            if segment.entry not in strung:
                steps = plan.strands[segment.entry].steps
                strung[segment.entry] = [(step.elements, step.number) for step in steps if step.kind == "string"]
            ends = strung[segment.entry]
            begin, end = (bisect_right(ends, place, key=itemgetter(0)) for place in (segment.first, segment.last))
            first, last = (ends[begin][1], ends[end - 1][1]) if begin < end else (1, 1)
            if hypothesis.reading is not None and read_at:
                first = last = plan.place(read_at[hypothesis.reading])[1]
            # A free-cord reading is weighed as cord used: too much of the one is too little of the other.
            size = one.likeliest.size
            off_mm = 0.0 if one.kind != MISREAD else -size if detail == "free" else size
            faults.append(Fault(one.kind, one.p, segment.entry, first, last, detail, off_mm, hypothesis.reading))
        return tuple(faults)

    def only(self, kept: Callable[[WeighedHypothesis], bool]) -> FaultPosterior:
        """With those candidates alone; where then nothing is left that is likely at all, nothing is wrong."""
        weighed = tuple(filter(kept, self.weighed))
        total = self.p_nothing + fsum(one.p for one in weighed)
        if total <= 0:
            return FaultPosterior(1.0, ())
        return FaultPosterior(
            self.p_nothing / total, tuple(WeighedHypothesis(one.candidate, one.p / total) for one in weighed)
        )


def weigh(
    hypotheses: Sequence[PreparedHypothesis], innovation: Sequence[float], assumptions: Assumptions
) -> FaultPosterior:
    """The posterior of these hypotheses, alone and two together, given the readings' whitened innovation."""
    against = [
        (prepared, prepared.inner(innovation), prepared.square()) if prepared.begun else (prepared, 0.0, 0.0)
        for prepared in hypotheses
    ]
    found = [one for prepared in against for one in candidates(*prepared, assumptions)]
    nothing = log(1 - min(0.9, fsum(prepared.hypothesis.prior for prepared in hypotheses)))
    log_total = _log_sum(nothing, found)
    if second := list(second_faults(against, found, log_total, assumptions)):
        found += second
        log_total = _log_sum(nothing, found)
    least = log_total + log(NEGLIGIBLE)
    weighed = tuple(WeighedHypothesis(one, exp(one.log_weight - log_total)) for one in found if one.log_weight > least)
    return FaultPosterior(exp(nothing - log_total), weighed)


def _log_sum(nothing: float, found: Sequence[SizedFault]) -> float:
    """The log of the sum of all weights, "nothing wrong" among them."""
    top = max([nothing, *(one.log_weight for one in found)])
    return top + log(exp(nothing - top) + fsum(exp(one.log_weight - top) for one in found))
