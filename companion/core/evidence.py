"""Evidence: the readings of a piece, how likely each story makes them, and what any length is expected to be by them.

In observation space: R readings with prior means m and covariance K (reading noise in it), its Cholesky factor grown
by a row a reading. Any length of the piece then has its posterior from its prior and its covariances with the readings.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from math import sqrt

from companion.core.allowances import fixed_mm, free_at_start_mm
from companion.core.assumptions import Assumptions
from companion.core.events import Measured, Piece
from companion.core.gaussian import Cholesky, posterior
from companion.core.model import CORD, STRAND, Look, Model
from companion.core.outlook import Verdict
from companion.core.plan import Plan
from companion.core.stories import Cause, Count
from companion.core.story_book import StoryBook
from companion.core.suspicions import Suspicions, weigh


@dataclass(frozen=True, slots=True)
class Observed:
    """A reading as the model sees it: `value_mm` of `look`, with the variance of reading it; `scaled`: off by the
    ruler's scale as well (strand readings), in proportion to `planned_mm`."""

    look: Look
    value_mm: float
    noise_mm2: float
    scaled: bool
    planned_mm: float


@dataclass(frozen=True, slots=True)
class Evidence:
    """Readings already taken in: what they were, the factor of their covariance, their whitened innovation `read`."""

    observed: tuple[Observed, ...] = ()
    factor: Cholesky = field(default_factory=Cholesky)
    read: tuple[float, ...] = ()
    whitened: tuple[float, ...] = ()  # the same, less what beads known to be too many or too few make of it
    suspicions: Suspicions | None = None
    miscounts: tuple[tuple[Cause, float], ...] = ()  # beads that are known to be too many or too few, and how many
    verdict: Verdict | None = None

    @property
    def looks(self) -> list[Look]:
        """What was read."""
        return [one.look for one in self.observed]


Parts = list[tuple[float, float, float]]  # a mixture of normals: weight, mean, standard deviation, mm


class Reader:
    """Takes the readings of one plan's pieces in. Keeps what it has worked out: a reading more costs one row more.

    `judge`: the word that follows from some evidence and from the word before.
    """

    def __init__(
        self,
        plan: Plan,
        model: Model,
        assumptions: Assumptions,
        stories: bool,
        judge: Callable[[Evidence, Verdict | None], Verdict],
    ) -> None:
        self.plan = plan
        self.model = model
        self.assumptions = assumptions
        self._judge = judge
        self._book = StoryBook(model, assumptions) if stories else None
        self._counts: tuple[Count, ...] = ()
        self._chain: list[Evidence] = []  # after no reading, after the first, after the second …

    def evidence(self, piece: Piece) -> Evidence:
        """All that the piece's readings and counts say."""
        return self.taken_in(self.observed(piece), self.counts(piece) if self._book else ())

    def observed(self, piece: Piece) -> tuple[Observed, ...]:
        """The piece's readings as the model sees them. A free-cord reading before an entry's first element tells how
        long the cord is, and is taken by `free_at_start_mm`; it says nothing of knots or beads."""
        found = (self._observed(piece, reading) for reading in piece.readings)
        return tuple(one for one in found if one is not None)

    def _observed(self, piece: Piece, reading: Measured) -> Observed | None:
        entry, number = self.plan.place(reading.step) if reading.step else (0, 0)
        strand = self.plan.strands[entry]
        elements = strand.steps[number - 1].elements if number else 0
        if elements == 0:
            return None
        ruler = reading.ruler_step_mm**2 / 12
        if reading.kind == "strand":
            look = Look(entry, elements, STRAND)
            noise = ruler + self.assumptions.strand_handling_mm**2
            return Observed(look, reading.length_mm, noise, True, self.model.mean_mm(look))
        look = Look(entry, elements, CORD)
        start_mm = free_at_start_mm(self.plan, piece, entry, reading)
        used_mm = start_mm - fixed_mm(self.plan, entry, number) - reading.length_mm
        noise = ruler + self.assumptions.free_cord_handling_mm**2
        return Observed(look, used_mm, noise, False, self.model.mean_mm(look))

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

    def _between(self, one: Observed, other: Observed) -> float:
        """Covariance of what two readings read, reading noise apart, mm²."""
        total = self.model.covariance(one.look, other.look)
        if one.scaled and other.scaled:
            total += self.assumptions.strand_scale_cv**2 * one.planned_mm * other.planned_mm
        return total

    def taken_in(self, observed: tuple[Observed, ...], counts: tuple[Count, ...]) -> Evidence:
        """Evidence for these readings, grown from what is there where they go on from it."""
        if counts != self._counts or not self._chain:
            self._counts = counts
            self._back_to(0)
            self._chain = [self._judged(Evidence())]
        known = self._chain[-1].observed
        alike = next((n for n, pair in enumerate(zip(observed, known, strict=False)) if pair[0] != pair[1]), None)
        self._back_to(min(len(observed), len(known)) if alike is None else alike)
        for one in observed[len(self._chain) - 1 :]:
            self._chain.append(self._judged(self._grown(self._chain[-1], one), self._chain[-1].verdict))
        return self._chain[-1]

    def _back_to(self, readings: int) -> None:
        if readings < len(self._chain) - 1:
            del self._chain[readings + 1 :]
            if self._book:
                self._book.keep(readings)

    def _grown(self, evidence: Evidence, one: Observed) -> Evidence:
        column = [self._between(one, other) for other in evidence.observed]
        factor = evidence.factor.extended(column, self._between(one, one) + one.noise_mm2)
        white = Cholesky.solve_next(evidence.read, factor.rows[-1], one.value_mm - one.planned_mm)
        return Evidence((*evidence.observed, one), factor, (*evidence.read, white), (*evidence.read, white))

    def _judged(self, evidence: Evidence, before: Verdict | None = None) -> Evidence:
        """With the stories weighed, and the word that follows from them and from the word before."""
        if self._book and self._counts:
            evidence = self._with_miscounts(self._book, evidence)
        if self._book and evidence.observed:
            stories = self._book.known(evidence.looks, evidence.factor, self._counts)
            evidence = replace(evidence, suspicions=weigh(stories, evidence.whitened, self.assumptions))
        return replace(evidence, verdict=self._judge(evidence, before))

    def _with_miscounts(self, book: StoryBook, evidence: Evidence) -> Evidence:
        """Beads that are known to be too many or too few are no story any more: the readings are held against them."""
        found = book.miscounts(evidence.looks, evidence.factor, evidence.read, self._counts)
        whitened = evidence.read
        for known, size in found:
            whitened = tuple(value - size * unit for value, unit in zip(whitened, known.unit, strict=True))
        miscounts = tuple((known.cause, size) for known, size in found)
        return replace(evidence, whitened=whitened, miscounts=miscounts)

    def nothing_wrong(self, evidence: Evidence, looks: Sequence[Look]) -> tuple[float, float, tuple[float, ...]]:
        """The sum of these quantities with no story true: its mean and standard deviation, mm, and L^-1 of its
        covariances with the readings. Cord used is counted from the first element."""
        mean = sum(self.model.mean_mm(look) for look in looks)
        mean += sum(size * cause.unit(look) for cause, size in evidence.miscounts for look in looks)
        variance = sum(self.model.covariance(one, other) for one in looks for other in looks)
        column = [sum(self.model.covariance(look, one.look) for look in looks) for one in evidence.observed]
        whitened = evidence.factor.solve_lower(column)
        after, left = posterior(evidence.whitened, mean, variance, whitened)
        return after, sqrt(left), whitened

    def parts(self, evidence: Evidence, looks: Sequence[Look]) -> Parts:
        """The sum of these quantities as a mixture, all stories in it."""
        mean_mm, sd_mm, covariances = self.nothing_wrong(evidence, looks)
        if evidence.suspicions is None:
            return [(1.0, mean_mm, sd_mm)]
        return evidence.suspicions.parts(mean_mm, sd_mm, covariances, lambda cause: sum(map(cause.unit, looks)))
