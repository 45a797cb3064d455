"""The mixture that many weighed hypotheses make, gathered once, against going through them one by one."""

from __future__ import annotations

from math import log, sqrt

import pytest

from companion.core.forecast.faults.mixing import BINS_A_SD
from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.uncertainty.covariance import CORD, STRAND, Quantity
from companion.core.values.design import Repeat
from tests.core.forecast.light import G, K, plan_of

PLAN = plan_of([Repeat(60, (G, K))], length_mm=480)
OFF_MM = {
    "as planned": (0.0, 0.5, -0.5, 0.2),
    "a bead missed": (0.0, -8.0, -8.5, -8.0),
    "a slip": (0.0, 25.4, 0.3, 0.0),
    "a bead missed, and a slip": (0.0, -8.0, 17.4, -8.2),
    "drifting": (1.0, 4.0, 9.0, 16.0),
    "the latest a slip of any size": (0.0, 0.0, 0.3, 130.0),
}


def evidence_of(off_mm, free_mm: float = 0.0):
    """A forecaster, and what it makes of four strand readings and one of the free cord."""
    steps = PLAN.strands[0].steps
    taken = [
        Measured("strand", n, steps[n - 1].strand_mm + off, "") for n, off in zip((12, 24, 36, 48), off_mm, strict=True)
    ]
    taken.insert(2, Measured("free", 24, steps[23].free_cord_mm + free_mm, ""))
    forecaster = Forecaster(PLAN, faults=True)
    return forecaster, forecaster.estimator.evidence(Piece(PLAN.total_steps, 48, readings=tuple(taken)))


def one_by_one(posterior, mean_mm, sd_mm, covariances, unit_shift):
    """Every candidate by itself: its shift less what the readings say of it, put into bins of a quarter of the sd."""
    width = sd_mm / BINS_A_SD
    bins = {(0, 0): [posterior.p_nothing, 0.0, 0.0]}
    for found in posterior.weighed:
        shift_mm = variance = 0.0
        for one in filter(None, (found.candidate, found.candidate.first)):
            size, size_variance = one.untold or (one.size, one.size_variance)
            whitened = one.prepared.unit_shift
            explained = sum(a * b for a, b in zip(covariances, whitened, strict=True))
            shift_mm += size * (unit_shift(one.prepared.hypothesis) - explained)
            variance += size_variance * explained**2
        key = round(shift_mm / width), round(BINS_A_SD * log(1 + variance / width**2))
        own = bins.setdefault(key, [0.0, 0.0, 0.0])
        for place, value in enumerate((found.p, found.p * shift_mm, found.p * variance)):
            own[place] += value
    return [(p, mean_mm + s / p, sqrt(sd_mm**2 + v / p)) for p, s, v in bins.values() if p > 0]


@pytest.mark.parametrize("what", OFF_MM)
@pytest.mark.parametrize("free_mm", [0.0, -60.0])
@pytest.mark.parametrize("weights", [STRAND, CORD])
def test_gathered_once_is_the_same_as_one_by_one(what, free_mm, weights) -> None:
    forecaster, evidence = evidence_of(OFF_MM[what], free_mm)
    kept = evidence.posterior.only(lambda one: one.candidate.kind != "tension drifting")
    for elements in (30, 96, 120):
        quantity = Quantity(0, elements, weights)
        mean_mm, sd_mm, covariances = forecaster.estimator.nothing_wrong(evidence, [quantity])
        for posterior in (evidence.posterior, kept):
            asked = (mean_mm, sd_mm, covariances, lambda hypothesis, q=quantity: hypothesis.unit_shift(q))
            expected = sorted(one_by_one(posterior, *asked))
            found = sorted(posterior.mixture(*asked))
            assert len(found) == len(expected)
            for part, by_itself in zip(found, expected, strict=True):
                assert part == pytest.approx(by_itself, rel=1e-9, abs=1e-12)


def test_two_faults_at_once_are_among_them() -> None:
    """So the test above is about those as well."""
    _, evidence = evidence_of(OFF_MM["a bead missed, and a slip"])
    assert any(one.candidate.first is not None for one in evidence.posterior.weighed)
    _, evidence = evidence_of(OFF_MM["the latest a slip of any size"])
    assert any(one.candidate.size_variance for one in evidence.posterior.weighed)


def test_a_hypothesis_weighs_the_same_once_readings_were_taken_back() -> None:
    """Its square is kept from reading to reading: one reading stands, the next ones are others."""
    forecaster, before = evidence_of(OFF_MM["drifting"])
    steps = PLAN.strands[0].steps
    readings = tuple(Measured("strand", n, steps[n - 1].strand_mm + off, "") for n, off in ((12, 1.0), (24, -7.0)))
    again, fresh = (
        each.estimator.evidence(Piece(PLAN.total_steps, 24, readings=readings))
        for each in (forecaster, Forecaster(PLAN, faults=True))
    )
    assert again.observations[0] == before.observations[0]
    assert chances(again) == chances(fresh)
    assert chances(again) != chances(before)


def chances(evidence):
    return [(one.candidate.kind, one.candidate.size, one.p) for one in evidence.posterior.weighed]
