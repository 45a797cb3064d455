"""Evidence: the readings of a piece, how likely each story makes them, and what any length is expected to be by them.

In observation space: R readings with prior means m and covariance K (reading noise in it), its Cholesky factor grown
by a row a reading. Any length of the piece then has its posterior from its prior and its covariances with the readings.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from itertools import takewhile
from math import sqrt

from companion.core.forecast.cord_budget import fixed_mm, free_at_start_mm
from companion.core.forecast.hypotheses import Count, Hypothesis
from companion.core.forecast.hypothesis_cache import HypothesisCache
from companion.core.forecast.outlook import Verdict
from companion.core.forecast.posterior import FaultPosterior, weigh
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.maths.gaussian import Cholesky, conditioned
from companion.core.plan.covariance import CORD, STRAND, CovarianceModel, Quantity
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import Assumptions


@dataclass(frozen=True, slots=True)
class Observation:
    """A reading as the model sees it: `value_mm` of `look`, with the variance of reading it; `scaled`: off by the
    ruler's scale as well (strand readings), in proportion to `planned_mm`."""

    quantity: Quantity
    value_mm: float
    noise_mm2: float
    scaled: bool
    planned_mm: float


@dataclass(frozen=True, slots=True)
class Evidence:
    """Readings already taken in: what they were, the factor of their covariance, their whitened innovation `read`."""

    observations: tuple[Observation, ...] = ()
    factor: Cholesky = field(default_factory=Cholesky)
    read: tuple[float, ...] = ()
    whitened: tuple[float, ...] = ()  # the same, less what beads known to be too many or too few make of it
    posterior: FaultPosterior | None = None
    miscounts: tuple[tuple[Hypothesis, float], ...] = ()  # beads that are known to be too many or too few, and how many
    verdict: Verdict | None = None

    @property
    def quantities(self) -> list[Quantity]:
        """What was read."""
        return [one.quantity for one in self.observations]


Parts = list[tuple[float, float, float]]  # a mixture of normals: weight, mean, standard deviation, mm


class Estimator:
    """Takes the readings of one plan's pieces in. Keeps what it has worked out: a reading more costs one row more.

    `judge`: the word that follows from some evidence and from the word before.
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
        self._book = HypothesisCache(model, assumptions) if faults else None
        self._counts: tuple[Count, ...] = ()
        self._chain: list[Evidence] = []  # after no reading, after the first, after the second …

    def evidence(self, piece: Piece) -> Evidence:
        """All that the piece's readings and counts say."""
        return self.taken_in(self.observations(piece), self.counts(piece) if self._book else ())

    def observations(self, piece: Piece) -> tuple[Observation, ...]:
        """The piece's readings as the model sees them. A free-cord reading before an entry's first element tells how
        long the cord is, and is taken by `free_at_start_mm`; it says nothing of knots or beads."""
        found = (self._observation(piece, reading) for reading in piece.readings)
        return tuple(one for one in found if one is not None)

    def _observation(self, piece: Piece, reading: Measured) -> Observation | None:
        entry, number = self.plan.place(reading.step) if reading.step else (0, 0)
        strand = self.plan.strands[entry]
        elements = strand.steps[number - 1].elements if number else 0
        if elements == 0:
            return None
        ruler = reading.ruler_step_mm**2 / 12
        if reading.kind == "strand":
            quantity = Quantity(entry, elements, STRAND)
            noise = ruler + self.assumptions.strand_handling_mm**2
            return Observation(quantity, reading.length_mm, noise, True, self.model.mean_mm(quantity))
        quantity = Quantity(entry, elements, CORD)
        start_mm = free_at_start_mm(self.plan, piece, entry, reading)
        used_mm = start_mm - fixed_mm(self.plan, entry, number) - reading.length_mm
        noise = ruler + self.assumptions.free_cord_handling_mm**2
        return Observation(quantity, used_mm, noise, False, self.model.mean_mm(quantity))

    def counts(self, piece: Piece) -> tuple[Count, ...]:
        """What the maker has counted, as elements of the entries that it goes over."""
        found = []
        for part, counted in enumerate(piece.counted):
            for entry in range(len(self.plan.strands)):
                first, last = (self.elements_made(entry, step) for step in (counted.since, counted.step))
                if first < last:
                    found.append(Count(entry, first, last, counted.beads, part))
        return tuple(found)

    def elements_made(self, entry: int, step: int) -> int:
        """How many of an entry's elements are made after step `step` of the piece."""
        steps = self.plan.strands[entry].steps
        number = min(max(step - self.plan.piece_step(entry, 0), 0), len(steps))
        return steps[number - 1].elements if number else 0

    def _between(self, one: Observation, other: Observation) -> float:
        """Covariance of what two readings read, reading noise apart, mm²."""
        total = self.model.covariance(one.quantity, other.quantity)
        if one.scaled and other.scaled:
            total += self.assumptions.strand_scale_cv**2 * one.planned_mm * other.planned_mm
        return total

    def new_readings(self, piece: Piece) -> int:
        """How many of the piece's readings are not taken in yet, or have to be once more."""
        observations = self.observations(piece)
        return len(observations) - self._known(observations, self.counts(piece) if self._book else ())

    def _known(self, observations: tuple[Observation, ...], counts: tuple[Count, ...]) -> int:
        """How many of these readings, from the first on, were taken in with the same counts."""
        if counts != self._counts or not self._chain:
            return 0
        pairs = zip(observations, self._chain[-1].observations, strict=False)
        return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))

    def taken_in(self, observations: tuple[Observation, ...], counts: tuple[Count, ...]) -> Evidence:
        """Evidence for these readings, grown from what is there where they go on from it."""
        known = self._known(observations, counts)
        self._back_to(known)
        if counts != self._counts or not self._chain:
            self._counts = counts
            self._chain = [self._judged(Evidence())]
        for one in observations[known:]:
            self._chain.append(self._judged(self._grown(self._chain[-1], one), self._chain[-1].verdict))
        return self._chain[-1]

    def _back_to(self, readings: int) -> None:
        if readings < len(self._chain) - 1:
            del self._chain[readings + 1 :]
            if self._book:
                self._book.keep(readings)

    def _grown(self, evidence: Evidence, one: Observation) -> Evidence:
        column = [self._between(one, other) for other in evidence.observations]
        factor = evidence.factor.extended(column, self._between(one, one) + one.noise_mm2)
        white = Cholesky.solve_next(evidence.read, factor.rows[-1], one.value_mm - one.planned_mm)
        return Evidence((*evidence.observations, one), factor, (*evidence.read, white), (*evidence.read, white))

    def _judged(self, evidence: Evidence, before: Verdict | None = None) -> Evidence:
        """With the stories weighed, and the word that follows from them and from the word before."""
        if self._book and self._counts:
            evidence = self._with_miscounts(self._book, evidence)
        if self._book and evidence.observations:
            faults = self._book.prepared(evidence.quantities, evidence.factor, self._counts)
            evidence = replace(evidence, posterior=weigh(faults, evidence.whitened, self.assumptions))
        return replace(evidence, verdict=self._judge(evidence, before))

    def _with_miscounts(self, book: HypothesisCache, evidence: Evidence) -> Evidence:
        """Beads that are known to be too many or too few are no story any more: the readings are held against them."""
        found = book.miscounts(evidence.quantities, evidence.factor, evidence.read, self._counts)
        whitened = evidence.read
        for known, size in found:
            whitened = tuple(value - size * unit for value, unit in zip(whitened, known.unit, strict=True))
        miscounts = tuple((known.hypothesis, size) for known, size in found)
        return replace(evidence, whitened=whitened, miscounts=miscounts)

    def nothing_wrong(
        self, evidence: Evidence, quantities: Sequence[Quantity]
    ) -> tuple[float, float, tuple[float, ...]]:
        """The sum of these quantities with no story true: its mean and standard deviation, mm, and L^-1 of its
        covariances with the readings. Cord used is counted from the first element."""
        mean = sum(self.model.mean_mm(quantity) for quantity in quantities)
        mean += sum(
            size * hypothesis.unit(quantity) for hypothesis, size in evidence.miscounts for quantity in quantities
        )
        variance = sum(self.model.covariance(one, other) for one in quantities for other in quantities)
        column = [
            sum(self.model.covariance(quantity, one.quantity) for quantity in quantities)
            for one in evidence.observations
        ]
        whitened = evidence.factor.solve_lower(column)
        after, left = conditioned(evidence.whitened, mean, variance, whitened)
        return after, sqrt(left), whitened

    def parts(self, evidence: Evidence, quantities: Sequence[Quantity]) -> Parts:
        """The sum of these quantities as a mixture, all stories in it."""
        mean_mm, sd_mm, covariances = self.nothing_wrong(evidence, quantities)
        if evidence.posterior is None:
            return [(1.0, mean_mm, sd_mm)]
        return evidence.posterior.parts(
            mean_mm, sd_mm, covariances, lambda hypothesis: sum(map(hypothesis.unit, quantities))
        )
