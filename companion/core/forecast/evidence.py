"""What the readings of a piece say: how likely each fault hypothesis is, and what any length is expected to be.

All in observation space: the readings have prior means and a covariance (reading noise in it), whose Cholesky factor
grows by a row a reading. Any length of the piece then has its posterior from its prior and its covariances with the
readings.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import takewhile
from math import hypot, sqrt
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import replace

from companion.core.forecast.faults.segment import BeadCount
from companion.core.forecast.observations import Observation, count_observations, observations
from companion.core.forecast.outlook import Verdict
from companion.core.journal.piece import Piece
from companion.core.maths.gaussian import Cholesky, conditioned
from companion.core.maths.mixtures import Part, mixture_mean_sd
from companion.core.plan.plan import Plan
from companion.core.plan.uncertainty.covariance import CovarianceModel, Quantity
from companion.core.values.assumptions import Assumptions

if TYPE_CHECKING:
    from companion.core.forecast.faults.hypothesis import Hypothesis
    from companion.core.forecast.faults.hypothesis_cache import HypothesisCache
    from companion.core.forecast.faults.posterior import FaultPosterior


class Evidence(Struct, frozen=True):
    """The readings so far and what follows from them.

    `factor`: Cholesky factor of their covariance; `innovation`: L^-1 of the readings less what is expected of them, and
    `raw_innovation` the same with nothing known of miscounted beads. `miscounts`: beads that are known to be too many
    or too few, each with how many. `verdict`: the word after the latest reading. `off`: of each strand reading how
    far it was off what was expected before it, in mm and in standard deviations.
    """

    observations: tuple[Observation, ...] = ()
    factor: Cholesky = field(default_factory=Cholesky)
    raw_innovation: tuple[float, ...] = ()
    innovation: tuple[float, ...] = ()
    posterior: FaultPosterior | None = None
    miscounts: tuple[tuple[Hypothesis, float], ...] = ()
    verdict: Verdict | None = None
    off: tuple[tuple[float, float], ...] = ()

    @property
    def off_as_counted(self) -> tuple[tuple[float, float], ...]:
        """What `off` would be with the miscounted beads in the places where they are now believed to be, and nothing
        else wrong."""
        rows = self.factor.rows
        return tuple((white * row[-1], white) for white, row in zip(self.innovation, rows, strict=True))

    def followers(self, reading: int) -> int:
        """How many readings after that one (from 0) are of its kind and entry, with as much strung or more."""
        one, *later = (observation.quantity for observation in self.observations[reading:])
        same = (other for other in later if (other.entry, other.weights) == (one.entry, one.weights))
        return sum(other.elements >= one.elements for other in same)

    @property
    def quantities(self) -> list[Quantity]:
        """What was read."""
        return [one.quantity for one in self.observations]


class Estimator:
    """Estimates the lengths of one plan's pieces from their readings. Keeps what it has worked out: a reading more
    costs one row more.

    `judge`: the verdict that follows from some evidence and from the verdict before it.
    """

    def __init__(
        self,
        plan: Plan,
        model: CovarianceModel,
        assumptions: Assumptions,
        faults: bool,
        judge: Callable[[Evidence, Verdict | None], Verdict],
    ) -> None:
        self.plan = plan
        self.model = model
        self.assumptions = assumptions
        self._judge = judge
        self._weighs_faults = faults
        self._hypotheses: HypothesisCache | None = None  # until something was read or counted
        self._counts: tuple[BeadCount, ...] = ()
        self._chain: list[Evidence] = []  # after no reading, after the first, after the second …

    def evidence(self, piece: Piece) -> Evidence:
        """All that the piece's readings and counts say."""
        read, counts = self._read_and_counted(piece)
        known = self._known(read, counts)
        self._shorten(known)
        if counts != self._counts or not self._chain:
            self._counts = counts
            self._chain = [self._judged(Evidence())]
        for one in read[known:]:
            self._chain.append(self._judged(self._grown(self._chain[-1], one), self._chain[-1].verdict))
        return self._chain[-1]

    def earlier(self, observations: int) -> Evidence:
        """What the first so many (`observations`) of the readings said that were taken in last, with all counts that
        are known by now. Raises IndexError for more than were taken in."""
        return self._chain[observations]

    def new_readings(self, piece: Piece) -> int:
        """How many of the piece's readings are not taken in yet, or must be taken in again."""
        read, counts = self._read_and_counted(piece)
        return len(read) - self._known(read, counts)

    def _read_and_counted(self, piece: Piece) -> tuple[tuple[Observation, ...], tuple[BeadCount, ...]]:
        read = observations(self.plan, self.model, self.assumptions, piece)
        return read, count_observations(self.plan, piece) if self._weighs_faults else ()

    def _known(self, read: tuple[Observation, ...], counts: tuple[BeadCount, ...]) -> int:
        """How many of these readings, from the first on, were taken in with the same counts."""
        if counts != self._counts or not self._chain:
            return 0
        pairs = zip(read, self._chain[-1].observations, strict=False)
        return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))

    def _shorten(self, readings: int) -> None:
        if readings < len(self._chain) - 1:
            del self._chain[readings + 1 :]
            if self._hypotheses:
                self._hypotheses.shorten(readings)

    def _grown(self, evidence: Evidence, one: Observation) -> Evidence:
        """With one reading more."""
        column = [self._covariance(one, other) for other in evidence.observations]
        factor = evidence.factor.extended(column, self._covariance(one, one) + one.noise_mm2, own=one.noise_mm2)
        white = Cholesky.solve_next(evidence.raw_innovation, factor.rows[-1], one.value_mm - one.planned_mm)
        innovation = (*evidence.raw_innovation, white)
        off = (*evidence.off, self._off(evidence, one, factor.rows[-1][-1]) if one.scaled else (0.0, 0.0))
        return Evidence((*evidence.observations, one), factor, innovation, innovation, off=off)

    def _off(self, evidence: Evidence, one: Observation, own_sd_mm: float) -> tuple[float, float]:
        """How far a reading is off what the ones before it said, all fault hypotheses in it: mm, standard deviations.
        `own_sd_mm`: its standard deviation after them with nothing wrong, the ruler's part in it."""
        _, known_sd_mm, _ = self.nothing_wrong(evidence, [one.quantity])
        mean_mm, sd_mm = mixture_mean_sd(self.mixture(evidence, [one.quantity]))
        ruler_mm = sqrt(max(0.0, own_sd_mm**2 - known_sd_mm**2))
        off_mm = one.value_mm - mean_mm
        return off_mm, off_mm / hypot(sd_mm, ruler_mm)

    def _covariance(self, one: Observation, other: Observation) -> float:
        """Covariance of two readings, reading noise apart, mm²."""
        total = self.model.covariance(one.quantity, other.quantity)
        if one.scaled and other.scaled:
            total += self.assumptions.strand_scale_cv**2 * one.planned_mm * other.planned_mm
        return total

    def _judged(self, evidence: Evidence, before: Verdict | None = None) -> Evidence:
        """With the posterior of the fault hypotheses, and the verdict that follows from it and from the one before."""
        if self._weighs_faults and (self._counts or evidence.observations):
            evidence = self._weighed(evidence)
        return replace(evidence, verdict=self._judge(evidence, before))

    def _weighed(self, evidence: Evidence) -> Evidence:
        """With what is known of miscounted beads, and the posterior of the hypotheses: loaded with the first reading,
        for until then there is nothing to weigh."""
        from companion.core.forecast.faults.hypothesis_cache import HypothesisCache
        from companion.core.forecast.faults.posterior import weigh

        self._hypotheses = self._hypotheses or HypothesisCache(self.model, self.assumptions)
        if self._counts:
            evidence = self._with_miscounts(self._hypotheses, evidence)
        if not evidence.observations:
            return evidence
        prepared = self._hypotheses.prepared(evidence.quantities, evidence.factor, self._counts)
        return replace(evidence, posterior=weigh(prepared, evidence.innovation, self.assumptions))

    def _with_miscounts(self, hypotheses: HypothesisCache, evidence: Evidence) -> Evidence:
        """Beads known to be too many or too few are no hypothesis any more: the readings are held against them."""
        from companion.core.forecast.faults.miscounts import known_miscounts

        found = known_miscounts(hypotheses, evidence.quantities, evidence.factor, evidence.raw_innovation, self._counts)
        innovation = evidence.raw_innovation
        for known, size in found:
            innovation = tuple(value - size * unit for value, unit in zip(innovation, known.unit_shift, strict=True))
        miscounts = tuple((known.hypothesis, size) for known, size in found)
        return replace(evidence, innovation=innovation, miscounts=miscounts)

    def nothing_wrong(
        self, evidence: Evidence, quantities: Sequence[Quantity]
    ) -> tuple[float, float, tuple[float, ...]]:
        """The sum of these quantities if nothing is wrong: its mean, mm, its standard deviation, mm, and L^-1 of its
        covariances with the readings, one number a reading. Cord used is counted from the first element."""
        mean = sum(self.model.mean_mm(quantity) for quantity in quantities)
        mean += sum(
            size * hypothesis.unit_shift(quantity) for hypothesis, size in evidence.miscounts for quantity in quantities
        )
        variance = sum(self.model.covariance(one, other) for one in quantities for other in quantities)
        column = [
            sum(self.model.covariance(quantity, one.quantity) for quantity in quantities)
            for one in evidence.observations
        ]
        whitened = evidence.factor.solve_lower(column)
        after, left = conditioned(evidence.innovation, mean, variance, whitened)
        return after, sqrt(left), whitened

    def mixture(self, evidence: Evidence, quantities: Sequence[Quantity]) -> list[Part]:
        """The sum of these quantities, mm, as a mixture of normals: "nothing wrong" and every fault that is not
        negligible, each with its chance. Without hypotheses it is one normal."""
        mean_mm, sd_mm, covariances = self.nothing_wrong(evidence, quantities)
        if evidence.posterior is None:
            return [(1.0, mean_mm, sd_mm)]
        return evidence.posterior.mixture(
            mean_mm, sd_mm, covariances, lambda hypothesis: sum(map(hypothesis.unit_shift, quantities))
        )
