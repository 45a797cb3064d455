"""The forecast of a piece: its finished length and its cord, in numbers and in a word, from all that was read."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from math import hypot, nan, sqrt
from typing import TYPE_CHECKING

from msgspec.structs import replace

from companion.core.forecast.cord_budget import (
    closing_mm,
    closing_step,
    fixed_mm,
    free_at_start_mm,
    last_string_step,
    needed_mm,
)
from companion.core.forecast.evidence import Estimator, Evidence
from companion.core.forecast.faults.segment import Segment
from companion.core.forecast.next_reading import Hazard, next_reading
from companion.core.forecast.observations import elements_made, read_of
from companion.core.forecast.outlook import CordCheck, EntryOutlook, Fault, Outlook, ReadingCheck, Verdict
from companion.core.forecast.set_aside import MOST_SET_ASIDE, contradicted, is_disbelieved, taken_at_its_word
from companion.core.forecast.verdicts import cord_verdict, on_plan_between, verdict
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.maths.distributions import student_quantile, within
from companion.core.maths.gaussian import conditioned
from companion.core.maths.mixtures import Part, mixture_cdf, mixture_mean_sd, mixture_quantile
from companion.core.plan.cut import run_out_risk
from companion.core.plan.plan import Plan
from companion.core.plan.uncertainty.covariance import CORD, STRAND, CovarianceModel, Quantity
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.expected import Expected

if TYPE_CHECKING:
    from companion.core.forecast.faults.posterior import FaultPosterior


def expected(mixture: list[Part]) -> Expected:
    """A mixture's mean, standard deviation and 95 % interval."""
    if len(mixture) == 1:
        return Expected(mixture[0][1], mixture[0][2])
    mean, sd = mixture_mean_sd(mixture)
    return Expected(mean, sd, mixture_quantile(0.025, mixture), mixture_quantile(0.975, mixture))


def _p_between(mixture: list[Part], low_mm: float, high_mm: float) -> float:
    return min(1.0, sum(weight * within(low_mm, high_mm, mean, sd) for weight, mean, sd in mixture))


class Forecaster:
    """Forecasts for one plan. Keeps what it has worked out, so that a step without a new reading costs little."""

    def __init__(self, plan: Plan, assumptions: Assumptions = USUAL, faults: bool = False) -> None:
        self.plan = plan
        self.assumptions = assumptions
        self.model = CovarianceModel.of(
            plan.cord, plan.beads, [strand.elements for strand in plan.strands], assumptions
        )
        self.estimator = self._new_estimator(faults)
        self._without: dict[tuple[Measured, ...], Estimator] = {}  # one for each choice of readings set aside
        self._whole = [self.model.whole(entry, STRAND) for entry in plan.longest]
        self._made: tuple[FaultPosterior, list[Part]] | None = None  # the last posterior's whole strand

    def _new_estimator(self, faults: bool) -> Estimator:
        return Estimator(self.plan, self.model, self.assumptions, faults, self._verdict)

    def believed(self, piece: Piece) -> tuple[Evidence, Piece, tuple[Measured, ...]]:
        """What the readings say once those that later ones contradict are set aside; the piece without them; and they
        themselves, in the order in which they were taken."""
        aside: tuple[Measured, ...] = ()
        evidence, left = self.estimator.evidence(piece), piece
        while len(aside) < MOST_SET_ASIDE and (one := contradicted(self.plan, left, evidence)) is not None:
            place = next(number for number, reading in enumerate(left.readings) if reading is one)
            left = replace(left, readings=left.readings[:place] + left.readings[place + 1 :])
            aside = tuple(r for r in piece.readings if r is one or any(r is other for other in aside))
            evidence = self.estimator_without(aside).evidence(left)
        return evidence, left, aside

    def estimator_without(self, aside: tuple[Measured, ...]) -> Estimator:
        """The estimator of all readings of a piece except these, which `believed` has set aside."""
        if not aside:
            return self.estimator
        if aside not in self._without:
            self._without[aside] = self._new_estimator(faults=True)
        return self._without[aside]

    def outlook(self, piece: Piece) -> Outlook:
        """What is to be expected of the piece as it stands."""
        evidence, piece, aside = self.believed(piece)
        told = self._for_lengths(evidence, aside)
        finished = self.finished(told)
        entries = tuple(self._entry(piece, evidence, told, number) for number in range(len(self.plan.strands)))
        read = zip(evidence.observations, evidence.innovation, strict=True)
        surprises = [(one.quantity.entry, off) for one, off in read if one.scaled]
        mine = read_of(self.plan, piece)
        faults = self._faults(evidence, [reading.step for reading in mine])
        return Outlook(
            finished=expected(finished),
            p_in_tolerance=self._p_in_tolerance(finished),
            verdict=evidence.verdict or "no target",
            entries=entries,
            knot_ratio=self._knot_ratio(evidence) if surprises else None,
            next_reading_step=next_reading(self.plan, piece, surprises, self.assumptions, self._hazards(evidence)),
            p_fault=evidence.posterior.p_fault if evidence.posterior else 0.0,
            faults=faults,
            set_aside=aside,
            checks=self._checks(evidence, piece),
            doubtful=next((mine[one.reading] for one in faults if one.reading is not None), None),
        )

    def _for_lengths(self, evidence: Evidence, aside: tuple[Measured, ...]) -> Evidence:
        """What lengths are foretold from: all readings, but for the latest where it is not believed."""
        if not is_disbelieved(evidence):
            return evidence
        return self.estimator_without(aside).earlier(len(evidence.observations) - 1)

    def new_readings(self, piece: Piece) -> int:
        """How many of the piece's readings are still to be taken in: what its outlook costs goes by them."""
        return self.estimator.new_readings(piece)

    def _verdict(self, evidence: Evidence, before: Verdict | None) -> Verdict:
        finished, strung = self.finished(evidence), self._strung(evidence)
        between = on_plan_between(self.plan)
        p = None if between is None else _p_between(finished, *between)
        sd_mm = mixture_mean_sd(finished)[1]
        if between is not None and strung >= 1:  # nothing is still to come: what was measured decides
            if between[0] <= self._measured_mm(evidence) <= between[1]:
                return "on plan"
            p = 1.0 if self._ends_between(evidence, finished, *between) else p
        return verdict(self.plan, sd_mm, p, self._faults(evidence), self.assumptions, before, strung=strung)

    def _measured_mm(self, evidence: Evidence) -> float:
        """The finished length by the latest reading of the whole strand alone, mm; nan while it was not read."""
        read = {one.quantity: one.value_mm for one in evidence.observations}
        return sum(read.get(whole, nan) for whole in self._whole) + self._closure_mm()

    def _ends_between(self, evidence: Evidence, finished: list[Part], low_mm: float, high_mm: float) -> bool:
        """Whether a piece that is all strung is between two lengths, as it is now or once its knots have settled."""
        now_mm = mixture_mean_sd(self._longest(evidence))[0] + self._closure_mm()
        return any(low_mm <= mm <= high_mm for mm in (now_mm, mixture_mean_sd(finished)[0]))

    def _strung(self, evidence: Evidence) -> float:
        """The share of the longest strand, from 0 to 1, that the latest reading goes over."""
        if not evidence.observations:
            return 0.0
        latest = evidence.observations[-1].quantity
        total_mm = sum(self.model.mean_mm(whole) for whole in self._whole)
        made_mm = sum(
            self.model.mean_mm(whole if whole.entry < latest.entry else Quantity(whole.entry, latest.elements, STRAND))
            for whole in self._whole
            if whole.entry <= latest.entry
        )
        return made_mm / total_mm if total_mm else 1.0

    def _faults(self, evidence: Evidence, read_at: Sequence[int] = ()) -> tuple[Fault, ...]:
        """`read_at`: the piece's step of each reading, where faults are to be named."""
        found = evidence.posterior.faults(self.plan, read_at) if evidence.posterior else ()
        return tuple(
            replace(one, settled=True) if one.reading is not None and evidence.followers(one.reading) else one
            for one in found
        )

    def _checks(self, evidence: Evidence, piece: Piece) -> tuple[ReadingCheck, ...]:
        """The strand readings, each beside what was expected of it; of one taken before beads were counted and found
        missing, with what is known now."""
        off = evidence.off_as_counted if evidence.miscounts else evidence.off
        read = zip(read_of(self.plan, piece), off, strict=True)
        return tuple(ReadingCheck(reading, *off) for reading, off in read if reading.kind == "strand")

    def finished(self, evidence: Evidence) -> list[Part]:
        """The finished length, end to end when closed, its knots settled: a ruler sees them as they are just tied."""
        knots_mm = sum(self.model.sums(quantity).knot_mm for quantity in self._whole)
        more_mm = self._closure_mm() - self.assumptions.settling_share * knots_mm
        settling_mm = self.assumptions.settling_cv * knots_mm
        made = self._longest(evidence)
        return [(p, mean + more_mm, hypot(sd, settling_mm)) for p, mean, sd in made]

    def _longest(self, evidence: Evidence) -> list[Part]:
        """The longest strand when its last knot is tied. Kept for the posterior that it was worked out for: the verdict
        asks for it, and the outlook after it."""
        if self._made is None or self._made[0] is not evidence.posterior:
            made = self.estimator.mixture(evidence, self._whole)
            if evidence.posterior is None:
                return made
            self._made = evidence.posterior, made
        return self._made[1]

    def _strand_end(self, evidence: Evidence, entry: int) -> list[Part]:
        if self.plan.longest == (entry,):
            return self._longest(evidence)
        return self.estimator.mixture(evidence, [self.model.whole(entry, STRAND)])

    def _closure_mm(self) -> float:
        return sum(self.plan.strands[entry].closure_length_mm for entry in self.plan.longest)

    def _p_in_tolerance(self, finished: list[Part]) -> float | None:
        target_mm, tolerance_mm = self.plan.target_mm, self.plan.tolerance_mm
        if target_mm is None or tolerance_mm is None:
            return None
        return _p_between(finished, target_mm - tolerance_mm, target_mm + tolerance_mm)

    def _hazards(self, evidence: Evidence) -> list[Hazard] | None:
        """What may still go wrong, each with the chance that it comes and alone takes the piece out of its tolerance,
        by more than a ruler's error; None where that can't be said: no hypotheses, nothing read, or no tolerance."""
        if evidence.posterior is None or self.plan.tolerance_mm is None:
            return None
        wide_mm, sd_mm = self.plan.tolerance_mm, self.assumptions.strand_handling_mm
        inside = within(-wide_mm, wide_mm, 0.0, sd_mm)
        found: dict[Segment, float] = defaultdict(float)
        latest, unit_mm = None, 0.0
        for weighed in evidence.posterior.weighed:
            one = weighed.candidate
            hypothesis = one.prepared.hypothesis
            if one.prepared.begun or hypothesis.reading is not None or not inside:
                continue
            if hypothesis is not latest:  # the sizes of a hypothesis follow each other
                latest, unit_mm = hypothesis, sum(map(hypothesis.unit_shift, self._whole))
            lost = 1 - within(-wide_mm, wide_mm, one.size * unit_mm, sd_mm) / inside
            segment, begins = hypothesis.segment, hypothesis.begins
            if begins is not None:
                segment = Segment(segment.entry, begins - 1, begins)
            found[segment] += weighed.p * lost
        return [Hazard(segment, chance) for segment, chance in found.items()]

    def _entry(self, piece: Piece, evidence: Evidence, told: Evidence, entry: int) -> EntryOutlook:
        """`told`: what the strand's length is foretold by; of the cord, until it is read again, the worse counts."""
        strand = self.plan.strands[entry]
        done = min(max(piece.done - self.plan.piece_step(entry, 0), 0), len(strand.steps))
        elements = elements_made(self.plan, entry, piece.done)
        start_mm = free_at_start_mm(self.plan, piece, entry)
        free_end = self.free(evidence, start_mm, entry, len(strand.steps))
        at_its_word = taken_at_its_word(self.plan, piece, evidence, entry)
        worse_end = free_end if at_its_word is evidence else self.free(at_its_word, start_mm, entry, len(strand.steps))
        return EntryOutlook(
            done=done,
            strand_now=expected(self.estimator.mixture(told, [Quantity(entry, elements, STRAND)])),
            free_now=expected(self.free(evidence, start_mm, entry, done)),
            strand_end=expected(self._strand_end(told, entry)),
            free_end=expected(free_end),
            cord=self._cord(at_its_word, start_mm, entry, done, worse_end),
        )

    def free(self, evidence: Evidence, start_mm: float, entry: int, number: int) -> list[Part]:
        """Free cord after step `number` (0: before the first) of an entry that began with `start_mm` a layer."""
        strand = self.plan.strands[entry]
        elements = strand.steps[number - 1].elements if number else 0
        rest_mm = start_mm - fixed_mm(self.plan, entry, number)
        used = self.estimator.mixture(evidence, [Quantity(entry, elements, CORD)])
        return [(weight, rest_mm - mean, sd) for weight, mean, sd in used]

    def _cord(self, evidence: Evidence, start_mm: float, entry: int, done: int, free_end: list[Part]) -> CordCheck:
        """The chances that the cord ends before the last knot and that it is short after it, where it would end, and
        what is missing.

        Until something is measured the plan's own sum stands, Student's tails and all, so that the chance is the one
        the cut was chosen for; readings soon outweigh what little is known of the cord's figures, and the posterior
        is taken as normal, or as a mixture of normals.
        """
        if done >= closing_step(self.plan, entry):
            return CordCheck("enough", 0.0, None, 0.0)
        strand = self.plan.strands[entry]
        needed = needed_mm(self.plan, entry, len(strand.steps))
        end = expected(free_end)
        if not evidence.observations:
            p_short = run_out_risk(strand, start_mm)
            p_run_out = run_out_risk(strand, start_mm + closing_mm(self.plan, entry))
            least_mm = end.mean_mm - student_quantile(1 - self.plan.risk, strand.need_degrees) * end.sd_mm
        else:
            p_short = min(1.0, mixture_cdf(needed, free_end))
            p_run_out = min(p_short, mixture_cdf(-strand.end_closure_cord_mm, free_end))
            least_mm = mixture_quantile(self.plan.risk, free_end)
        if done >= last_string_step(self.plan, entry):  # the last knot is tied: what is left to do takes no other
            p_run_out = 0.0
        said = cord_verdict(p_run_out, self.assumptions, p_short - p_run_out)
        step = bead = None
        if said in ("scant", "runs out"):
            likely_mm = mixture_quantile(p_run_out / 2, free_end)  # of the ways in which it ends, the middle one
            step = self._first_short(evidence, start_mm, entry, done, likely_mm - end.mean_mm)
            bead = max(1, sum(len(one.beads) for one in strand.steps[:step]))
        short_mm = max(0.0, needed - least_mm)
        return CordCheck(said, p_run_out, step, short_mm if short_mm > 1e-6 else 0.0, p_short - p_run_out, bead)

    def _first_short(self, evidence: Evidence, start_mm: float, entry: int, done: int, more_mm: float) -> int:
        """The first step to come that ties more than the cord has, the last where only that fails; `more_mm` is left
        beyond what is expected.

        Cord in hand only shrinks from step to step, so halving finds it. A closure's steps tie no more of the strand.
        """
        low, high = done + 1, last_string_step(self.plan, entry)
        while low < high:
            middle = (low + high) // 2
            if mixture_mean_sd(self.free(evidence, start_mm, entry, middle))[0] + more_mm < 0:
                high = middle
            else:
                low = middle + 1
        return low

    def _knot_ratio(self, evidence: Evidence) -> Expected:
        """Today's mean knot length against the cord's figures, all kinds and entries together."""
        quantities = [self.model.whole(entry, STRAND) for entry in range(len(self.plan.strands))]
        length_mm = sum(self.model.sums(quantity).knot_mm for quantity in quantities)
        if length_mm == 0:
            return Expected(1.0, 0.0)
        variance = sum(self.model.knot_covariance(one, other) for one in quantities for other in quantities)
        column = [
            sum(self.model.knot_covariance(quantity, one.quantity) for quantity in quantities)
            for one in evidence.observations
        ]
        shift, left = conditioned(evidence.innovation, 0.0, variance, evidence.factor.solve_lower(column))
        return Expected(1 + shift / length_mm, sqrt(left) / length_mm)
