"""What the readings mean for the piece: exact Gaussian conditioning of its model on all of them.

In observation space: R readings with prior means m and covariance K (reading noise in it), its Cholesky factor grown
by a row a reading. Any length of the piece then has its posterior from its prior and its covariances with the readings.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from math import sqrt

from companion.core.allowances import fixed_mm, free_at_start_mm, needed_mm
from companion.core.assumptions import USUAL, Assumptions
from companion.core.cut import run_out_risk
from companion.core.distributions import mixture_cdf, mixture_mean_sd, mixture_quantile, student_quantile, within
from companion.core.events import CutEntered, Measured, Piece
from companion.core.gaussian import Cholesky, posterior
from companion.core.model import CORD, STRAND, Look, Model
from companion.core.next_reading import next_reading
from companion.core.outlook import CordCheck, EntryOutlook, Expected, Outlook, Story, Verdict
from companion.core.plan import Plan
from companion.core.stories import Cause, Count
from companion.core.story_book import StoryBook
from companion.core.suspicions import Suspicions, told, weigh
from companion.core.verdicts import cord_verdict, verdict


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


def expected(parts: Parts) -> Expected:
    """A mixture's mean, standard deviation and 95 % interval."""
    if len(parts) == 1:
        return Expected(parts[0][1], parts[0][2])
    mean, sd = mixture_mean_sd(parts)
    return Expected(mean, sd, mixture_quantile(0.025, parts), mixture_quantile(0.975, parts))


class Forecaster:
    """Forecasts for one plan. Keeps what it has worked out, so that a step without a new reading costs little."""

    def __init__(self, plan: Plan, assumptions: Assumptions = USUAL, stories: bool = False) -> None:
        self.stories = stories
        self.plan = plan
        self.assumptions = assumptions
        self.model = Model.of(plan.cord, plan.beads, [strand.elements for strand in plan.strands], assumptions)
        self._book = StoryBook(self.model, assumptions) if stories else None
        self._counts_now: tuple[Count, ...] = ()
        self._chain = [self._judged(Evidence())]  # after no reading, after the first, after the second …

    def outlook(self, piece: Piece) -> Outlook:
        """What is to be expected of the piece as it stands."""
        evidence = self._taken_in(self.observed(piece), self._counts(piece) if self.stories else ())
        finished = self._finished(evidence)
        entries = tuple(self._entry(piece, evidence, number) for number in range(len(self.plan.strands)))
        read = zip(evidence.observed, evidence.whitened, strict=True)
        surprises = [(one.look.entry, off) for one, off in read if one.scaled]
        p_in_tolerance = self._p_in_tolerance(finished)
        stories = self._told(evidence)
        return Outlook(
            finished=expected(finished),
            p_in_tolerance=p_in_tolerance,
            verdict=evidence.verdict or "no target",
            entries=entries,
            knot_ratio=self._knot_ratio(evidence) if surprises else None,
            next_reading_step=next_reading(self.plan, piece, surprises, self.assumptions),
            p_fault=evidence.suspicions.p_fault if evidence.suspicions else 0.0,
            stories=stories,
        )

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

    def _taken_in(self, observed: tuple[Observed, ...], counts: tuple[Count, ...]) -> Evidence:
        """Evidence for these readings, grown from what is there where they go on from it."""
        if counts != self._counts_now:
            self._counts_now = counts
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
        if self._book and self._counts_now:
            evidence = self._with_miscounts(self._book, evidence)
        if self._book and evidence.observed:
            stories = self._book.known(evidence.looks, evidence.factor, self._counts_now)
            evidence = replace(evidence, suspicions=weigh(stories, evidence.whitened, self.assumptions))
        finished = self._finished(evidence)
        p, sd_mm = self._p_in_tolerance(finished), mixture_mean_sd(finished)[1]
        word = verdict(self.plan, sd_mm, p, self._told(evidence), self.assumptions, before)
        return replace(evidence, verdict=word)

    def _with_miscounts(self, book: StoryBook, evidence: Evidence) -> Evidence:
        """Beads that are known to be too many or too few are no story any more: the readings are held against them."""
        found = book.miscounts(evidence.looks, evidence.factor, evidence.read, self._counts_now)
        whitened = evidence.read
        for known, size in found:
            whitened = tuple(value - size * unit for value, unit in zip(whitened, known.unit, strict=True))
        miscounts = tuple((known.cause, size) for known, size in found)
        return replace(evidence, whitened=whitened, miscounts=miscounts)

    def _told(self, evidence: Evidence) -> tuple[Story, ...]:
        return told(self.plan, evidence.suspicions) if evidence.suspicions else ()

    def _counts(self, piece: Piece) -> tuple[Count, ...]:
        """What the maker has counted, as elements of the entries that it goes over."""
        found = []
        for part, counted in enumerate(piece.counted):
            for entry in range(len(self.plan.strands)):
                first, last = (self._elements_made(entry, step) for step in (counted.since, counted.step))
                if first < last:
                    found.append(Count(entry, first, last, counted.beads, part))
        return tuple(found)

    def _elements_made(self, entry: int, step: int) -> int:
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

    def parts(self, evidence: Evidence, looks: Sequence[Look]) -> Parts:
        """Posterior of the sum of these quantities as a mixture; cord used is counted from the first element."""
        mean = sum(self.model.mean_mm(look) for look in looks)
        mean += sum(size * cause.unit(look) for cause, size in evidence.miscounts for look in looks)
        variance = sum(self.model.covariance(one, other) for one in looks for other in looks)
        if not evidence.observed:
            return [(1.0, mean, sqrt(variance))]
        column = [sum(self.model.covariance(look, one.look) for look in looks) for one in evidence.observed]
        whitened = evidence.factor.solve_lower(column)
        after, left = posterior(evidence.whitened, mean, variance, whitened)
        if evidence.suspicions is None:
            return [(1.0, after, sqrt(left))]
        return evidence.suspicions.parts(after, sqrt(left), whitened, lambda cause: sum(map(cause.unit, looks)))

    def _finished(self, evidence: Evidence) -> Parts:
        closure_mm = sum(self.plan.strands[entry].closure_length_mm for entry in self.plan.longest)
        looks = [self.model.whole(entry, STRAND) for entry in self.plan.longest]
        return [(weight, mean + closure_mm, sd) for weight, mean, sd in self.parts(evidence, looks)]

    def _p_in_tolerance(self, finished: Parts) -> float | None:
        target_mm, tolerance_mm = self.plan.target_mm, self.plan.tolerance_mm
        if target_mm is None or tolerance_mm is None:
            return None
        low_mm, high_mm = target_mm - tolerance_mm, target_mm + tolerance_mm
        return min(1.0, sum(weight * within(low_mm, high_mm, mean, sd) for weight, mean, sd in finished))

    def _entry(self, piece: Piece, evidence: Evidence, entry: int) -> EntryOutlook:
        strand = self.plan.strands[entry]
        done = min(max(piece.done - self.plan.piece_step(entry, 0), 0), len(strand.steps))
        elements = self._elements_made(entry, piece.done)
        start_mm = free_at_start_mm(self.plan, piece, entry)
        free_end = self.free(evidence, start_mm, entry, len(strand.steps))
        return EntryOutlook(
            done=done,
            strand_now=expected(self.parts(evidence, [Look(entry, elements, STRAND)])),
            free_now=expected(self.free(evidence, start_mm, entry, done)),
            strand_end=expected(self.parts(evidence, [self.model.whole(entry, STRAND)])),
            free_end=expected(free_end),
            cord=self._cord(evidence, start_mm, entry, free_end),
        )

    def free(self, evidence: Evidence, start_mm: float, entry: int, number: int) -> Parts:
        """Free cord after step `number` (0: before the first) of an entry that began with `start_mm` a layer."""
        strand = self.plan.strands[entry]
        elements = strand.steps[number - 1].elements if number else 0
        rest_mm = start_mm - fixed_mm(self.plan, entry, number)
        used = self.parts(evidence, [Look(entry, elements, CORD)])
        return [(weight, rest_mm - mean, sd) for weight, mean, sd in used]

    def _cord(self, evidence: Evidence, start_mm: float, entry: int, free_end: Parts) -> CordCheck:
        """The chance that the cord does not reach, the first step it is expected not to, and what is missing.

        Until something is measured the plan's own sum stands, Student's tails and all, so that the chance is the one
        the cut was chosen for; readings soon outweigh what little is known of the cord's figures, and the posterior
        is taken as normal, or as a mixture of normals.
        """
        strand = self.plan.strands[entry]
        needed = needed_mm(self.plan, entry, len(strand.steps))
        end = expected(free_end)
        if not evidence.observed:
            p_run_out = run_out_risk(strand, start_mm)
            least_mm = end.mean_mm - student_quantile(1 - self.plan.risk, strand.need_degrees) * end.sd_mm
        else:
            p_run_out = min(1.0, mixture_cdf(needed, free_end))
            least_mm = mixture_quantile(self.plan.risk, free_end)
        short_mm = max(0.0, needed - least_mm)
        step = self._first_short(evidence, start_mm, entry) if end.mean_mm < needed else None
        return CordCheck(cord_verdict(p_run_out, self.assumptions), p_run_out, step, short_mm if short_mm > 1e-6 else 0)

    def _first_short(self, evidence: Evidence, start_mm: float, entry: int) -> int:
        """The first step after which less cord is expected to be left than it needs; the last if only the end fails.

        Cord in hand only shrinks from step to step, so halving finds it.
        """
        low, high = 1, len(self.plan.strands[entry].steps)
        while low < high:
            middle = (low + high) // 2
            left_mm = expected(self.free(evidence, start_mm, entry, middle)).mean_mm
            if left_mm < needed_mm(self.plan, entry, middle):
                high = middle
            else:
                low = middle + 1
        return low

    def _knot_ratio(self, evidence: Evidence) -> Expected:
        """Today's mean knot length against the cord's figures, all kinds and entries together."""
        looks = [self.model.whole(entry, STRAND) for entry in range(len(self.plan.strands))]
        length_mm = sum(self.model.place(look).knot_mm for look in looks)
        if length_mm == 0:
            return Expected(1.0, 0.0)
        variance = sum(self.model.knot_covariance(one, other) for one in looks for other in looks)
        column = [sum(self.model.knot_covariance(look, one.look) for look in looks) for one in evidence.observed]
        shift, left = posterior(evidence.whitened, 0.0, variance, evidence.factor.solve_lower(column))
        return Expected(1 + shift / length_mm, sqrt(left) / length_mm)


def forecast(plan: Plan, piece: Piece, assumptions: Assumptions = USUAL) -> Outlook:
    """What is to be expected of a piece as it stands. For many calls on one plan keep a Forecaster."""
    return Forecaster(plan, assumptions).outlook(piece)


def forecast_readings(
    plan: Plan, readings: Sequence[Measured], cuts: Sequence[CutEntered] = (), assumptions: Assumptions = USUAL
) -> Outlook:
    """What these readings mean, the piece taken as made up to the last step that was read."""
    done = max((reading.step for reading in readings), default=0)
    piece = Piece(total_steps=plan.total_steps, done=done, cuts=tuple(cuts), readings=tuple(readings))
    return forecast(plan, piece, assumptions)
