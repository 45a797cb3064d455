"""Weighing the stories by Bayes over the forecast's own factor, and what they make of a length still to come."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp, fsum, log, sqrt
from typing import NamedTuple

from companion.core.assumptions import Assumptions
from companion.core.outlook import Story
from companion.core.plan import Plan
from companion.core.stories import MISREAD, Cause, FaultKind
from companion.core.story_book import Known

NEGLIGIBLE = 1e-7  # a story less likely than this is left out of a forecast
BINS_A_SD = 4  # parts of a mixture nearer than a quarter of their width are put together


class Weighed(NamedTuple):
    """One story of one size with its chance, all stories and "nothing wrong" together being 1.

    `loose`: the variance of the size, where it is not one of a few but any: then `size` is its likeliest.
    """

    known: Known
    size: float
    kind: FaultKind
    p: float
    loose: float
    begun: bool

    @property
    def cause(self) -> Cause:
        return self.known.cause


@dataclass(frozen=True, slots=True)
class Suspicions:
    """All stories that count, and the chance that nothing has gone wrong or will."""

    p_nothing: float
    weighed: tuple[Weighed, ...]

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
        self, mean_mm: float, sd_mm: float, covariances: Sequence[float], shift: Callable[[Cause], float]
    ) -> list[tuple[float, float, float]]:
        """A length as a mixture: (weight, mean, sd), mm. `mean_mm`, `sd_mm`: with nothing wrong; `covariances`: L^-1 of
        its covariances with the readings; `shift`: what a cause of size 1 does to it."""
        width = max(sd_mm, 1e-9) / BINS_A_SD
        weights: dict[int, float] = {0: self.p_nothing}
        moments: dict[int, float] = {0: 0.0}
        apart = []
        before: Known | None = None
        unit = back = 0.0
        for known, size, _, p, loose, _ in self.weighed:
            if known is not before:  # the sizes of one cause come together
                before, back = known, known.along(covariances)
                unit = shift(known.cause) - back
            moved = size * unit
            if loose:
                apart.append((p, mean_mm + moved, sqrt(sd_mm**2 + loose * back * back)))
                continue
            place = round(moved / width)
            weights[place] = weights.get(place, 0.0) + p
            moments[place] = moments.get(place, 0.0) + p * moved
        return [(p, mean_mm + moments[place] / p, sd_mm) for place, p in weights.items() if p > 0] + apart


def weigh(stories: Sequence[Known], whitened: Sequence[float], assumptions: Assumptions) -> Suspicions:
    """All stories weighed on the readings of that whitened innovation."""
    found: list[tuple[Known, float, FaultKind, float, float]] = []
    for known in stories:
        along, square = (known.along(whitened), known.square()) if known.begun else (0.0, 0.0)
        for (size, _, kind), log_share in zip(known.cause.sizes, known.log_shares, strict=True):
            found.append((known, size, kind, log_share + size * along - size * size * square / 2, 0.0))
        if known.cause.reading is not None and square > 0:
            gross = (assumptions.prior_gross_misread, assumptions.gross_misread_mm)
            wild = (assumptions.prior_wild_misread, assumptions.wild_misread_mm)
            found += (_anything(known, along, square, *how) for how in (gross, wild))
    nothing = log(1 - min(0.9, fsum(known.cause.prior for known in stories)))
    top = max([nothing, *(one[3] for one in found)])
    total = exp(nothing - top) + fsum(exp(one[3] - top) for one in found)
    least = top + log(NEGLIGIBLE * total)
    weighed = tuple(
        Weighed(known, size, kind, exp(odds - top) / total, loose, known.begun)
        for known, size, kind, odds, loose in found
        if odds > least
    )
    return Suspicions(exp(nothing - top) / total, weighed)


def _anything(
    known: Known, along: float, square: float, prior: float, sd_mm: float
) -> tuple[Known, float, FaultKind, float, float]:
    """A reading that has nothing to do with the strand: off by anything, normal and wide; its size is summed out."""
    wide = sd_mm**2
    loose = 1 / (square + 1 / wide)
    odds = log(prior) + along * along * loose / 2 - log(1 + wide * square) / 2
    return known, along * loose, MISREAD, odds, loose


def told(plan: Plan, suspicions: Suspicions) -> tuple[Story, ...]:
    """The kinds of fault that may have happened, each with its chance and where it most likely began, as steps."""
    stories = []
    for kind, p in suspicions.by_kind().items():
        likeliest = max((one for one in suspicions.weighed if one.kind == kind and one.begun), key=lambda one: one.p)
        best = likeliest.cause
        steps = plan.strands[best.entry].steps
        inside = [step.number for step in steps if step.kind == "string" and best.first < step.elements <= best.last]
        # A free-cord reading is weighed as cord used: too much of the one is too little of the other.
        off_mm = 0.0 if kind != MISREAD else -likeliest.size if best.detail == "free" else likeliest.size
        first, last = min(inside, default=1), max(inside, default=1)
        stories.append(Story(kind, p, best.entry, first, last, best.detail, off_mm))
    return tuple(stories)
