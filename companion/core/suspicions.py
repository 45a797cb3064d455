"""Weighing the stories by Bayes over the forecast's own factor, and what they make of a length still to come."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp, fsum, log, sqrt

from companion.core.assumptions import Assumptions
from companion.core.gaussian import Cholesky
from companion.core.model import Look, Model
from companion.core.outlook import Story
from companion.core.plan import Plan
from companion.core.stories import Cause, FaultKind, causes, misreadings

NEGLIGIBLE = 1e-7  # a story less likely than this is left out of a forecast
BINS_A_SD = 4  # parts of a mixture nearer than a quarter of their width are put together


@dataclass(frozen=True, slots=True)
class Weighed:
    """One story of one size with its chance, all stories and "nothing wrong" together being 1. `shift`: d, whitened."""

    cause: Cause
    size: float
    kind: FaultKind
    p: float
    shift: tuple[float, ...]
    loose: float = 0.0  # variance of the size, where it is not one of a few but any: then `size` is its likeliest

    @property
    def begun(self) -> bool:
        """Whether any reading could have shown it."""
        return any(self.shift)


@dataclass(frozen=True, slots=True)
class Suspicions:
    """All stories that count, and the chance that nothing has gone wrong or will."""

    p_nothing: float
    weighed: tuple[Weighed, ...]

    @property
    def p_fault(self) -> float:
        """The chance that something has gone wrong already."""
        return fsum(one.p for one in self.weighed if one.begun)

    def by_kind(self) -> dict[FaultKind, float]:
        """The chance of each kind of fault that has begun, the likeliest first."""
        total: dict[FaultKind, float] = defaultdict(float)
        for one in self.weighed:
            if one.begun:
                total[one.kind] += one.p
        return dict(sorted(total.items(), key=lambda item: -item[1]))

    def parts(
        self, mean_mm: float, sd_mm: float, covariances: Sequence[float], shift: Callable[[Cause], float]
    ) -> list[tuple[float, float, float]]:
        """A length as a mixture: (weight, mean, sd), mm. `mean_mm`, `sd_mm`: with nothing wrong; `covariances`: L^-1 of
        its covariances with the readings; `shift`: what a cause of size 1 does to it."""
        width = max(sd_mm, 1e-9) / BINS_A_SD
        bins: dict[int, list[float]] = {0: [self.p_nothing, 0.0]}
        apart = []
        for one in self.weighed:
            back = sum(c * d for c, d in zip(covariances, one.shift, strict=True) if d)
            moved = one.size * shift(one.cause) - back
            if one.loose:
                wider = sqrt(sd_mm**2 + one.loose * (back / one.size) ** 2) if one.size else sd_mm
                apart.append((one.p, mean_mm + moved, wider))
                continue
            place = bins.setdefault(round(moved / width), [0.0, 0.0])
            place[0] += one.p
            place[1] += one.p * moved
        return [(p, mean_mm + total / p, sd_mm) for p, total in bins.values() if p > 0] + apart


def weigh(
    model: Model,
    looks: Sequence[Look],
    factor: Cholesky,
    whitened: Sequence[float],
    assumptions: Assumptions,
    counted: Sequence[int] = (),
) -> Suspicions:
    """All stories weighed on these readings, in the order of the factor's rows. `counted`: as for `causes`."""
    found: list[tuple[Cause, float, FaultKind, float, tuple[float, ...], float]] = []
    for cause in (*causes(model, looks, assumptions, counted), *misreadings(looks, assumptions)):
        unit = _whitened_unit(cause, looks, factor)
        along = sum(u * d for u, d in zip(whitened, unit, strict=True) if d)
        square = sum(d * d for d in unit)
        for size, share, kind in cause.sizes:
            odds = log(cause.prior * share) + size * along - size * size * square / 2
            found.append((cause, size, kind, odds, unit, 0.0))
        if cause.reading is not None and square > 0:
            found.append(_anything(cause, along, square, unit, assumptions))
    spent = min(0.9, fsum(cause.prior for cause in {id(one[0]): one[0] for one in found}.values()))
    nothing = log(1 - spent)
    top = max([nothing, *(one[3] for one in found)])
    total = exp(nothing - top) + fsum(exp(one[3] - top) for one in found)
    weighed = tuple(
        Weighed(cause, size, kind, p, tuple(size * d for d in unit), loose)
        for cause, size, kind, odds, unit, loose in found
        if (p := exp(odds - top) / total) > NEGLIGIBLE
    )
    return Suspicions(exp(nothing - top) / total, weighed)


def _anything(
    cause: Cause, along: float, square: float, unit: tuple[float, ...], assumptions: Assumptions
) -> tuple[Cause, float, FaultKind, float, tuple[float, ...], float]:
    """A reading that has nothing to do with the strand: off by anything, normal and wide; its size is summed out."""
    wide = assumptions.gross_misread_mm**2
    loose = 1 / (square + 1 / wide)
    odds = log(assumptions.prior_gross_misread) + along * along * loose / 2 - log(1 + wide * square) / 2
    return cause, along * loose, "misread", odds, unit, loose


def _whitened_unit(cause: Cause, looks: Sequence[Look], factor: Cholesky) -> tuple[float, ...]:
    """L^-1 of what a size of 1 does to the readings; nought up to the first that it touches."""
    if cause.reading is not None:
        shifts = [float(number == cause.reading) for number in range(len(looks))]
    else:
        shifts = [cause.unit(look) for look in looks]
    first = next((number for number, value in enumerate(shifts) if value), len(shifts))
    solved = [0.0] * first
    for number in range(first, len(shifts)):
        row = factor.rows[number]
        inside = sum(row[n] * solved[n] for n in range(first, number))
        solved.append((shifts[number] - inside) / row[number])
    return tuple(solved)


def told(plan: Plan, suspicions: Suspicions) -> tuple[Story, ...]:
    """The kinds of fault that may have happened, each with its chance and where it most likely began, as steps."""
    stories = []
    for kind, p in suspicions.by_kind().items():
        mine = [one for one in suspicions.weighed if one.kind == kind and one.begun]
        likeliest = max(mine, key=lambda one: one.p)
        best = likeliest.cause
        steps = plan.strands[best.entry].steps
        inside = [step.number for step in steps if step.kind == "string" and best.first < step.elements <= best.last]
        # A free-cord reading is weighed as cord used: too much of the one is too little of the other.
        off_mm = 0.0 if kind != "misread" else -likeliest.size if best.detail == "free" else likeliest.size
        first, last = min(inside, default=1), max(inside, default=1)
        stories.append(Story(kind, p, best.entry, first, last, best.detail, off_mm))
    return tuple(stories)
