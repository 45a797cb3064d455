"""Beads that were counted, and are too many or too few: where among them they most likely are.

A reading that was misread says nothing of that. So each place is weighed with all readings right, and with any one of
them wrong; else a single slip of the ruler would put the bead where it makes a good reading look wrong.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import exp, fsum, log

from companion.core.forecast.faults.candidates import candidates
from companion.core.forecast.faults.hypotheses import segments
from companion.core.forecast.faults.hypothesis_cache import HypothesisCache, PreparedHypothesis
from companion.core.forecast.faults.segment import BeadCount
from companion.core.maths.gaussian import Cholesky
from companion.core.plan.uncertainty.covariance import Quantity


def known_miscounts(
    cache: HypothesisCache,
    quantities: Sequence[Quantity],
    factor: Cholesky,
    innovation: Sequence[float],
    counts: Sequence[BeadCount],
) -> list[tuple[PreparedHypothesis, float]]:
    """For each count that was not right the likeliest hypothesis, as the readings say, with its size in beads."""
    misreadings = cache.misreadings(quantities, factor)
    found = []
    for number in sorted({count.number for count in counts if count.beads}):
        mine = [count for count in counts if count.number == number]
        beads = float(mine[0].beads)
        weighed = [
            (_log_weight(prepared.extended(quantities, factor), beads, innovation, misreadings, cache), prepared)
            for prepared in _lost_beads(cache, quantities, counts, mine)
        ]
        if weighed:
            found.append((max(weighed, key=lambda one: one[0])[1], beads))
    return found


def _lost_beads(
    cache: HypothesisCache, quantities: Sequence[Quantity], counts: Sequence[BeadCount], mine: Sequence[BeadCount]
) -> Iterator[PreparedHypothesis]:
    """The hypotheses of a lost bead in what `mine` goes over."""
    for segment in segments(cache.model, quantities, counts):
        if any(count.covers(segment) for count in mine):
            for prepared in cache.of_segment(segment, False):
                if prepared.hypothesis.sizes[0].kind == "bead missed":
                    yield prepared


def _log_weight(
    lost: PreparedHypothesis,
    beads: float,
    innovation: Sequence[float],
    misreadings: Sequence[PreparedHypothesis],
    cache: HypothesisCache,
) -> float:
    """How likely so many beads are lost by that hypothesis, as a logarithm up to a constant."""
    right = lost.log_priors[0] + beads * lost.inner(innovation) - beads * beads * lost.square() / 2
    weights = [0.0]  # none of them misread
    for one in misreadings:
        inner = one.inner(innovation) - beads * one.inner(lost.unit_shift)
        weights += [found.log_weight for found in candidates(one, inner, one.square(), cache.assumptions)]
    top = max(weights)
    return right + top + log(fsum(exp(weight - top) for weight in weights))
