"""The fault hypotheses of one plan, kept from reading to reading: a new reading adds one number to each.

A hypothesis's shift is whitened by the same factor as the readings, row by row, so what earlier readings made of it
stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import log
from operator import mul

from companion.core.forecast.faults.hypotheses import (
    cord_shortened,
    misreading,
    of_segment,
    segments,
    tension_drift,
    wrong_cut,
)
from companion.core.forecast.faults.hypothesis import Hypothesis
from companion.core.forecast.faults.segment import BeadCount, Segment
from companion.core.maths.gaussian import Cholesky
from companion.core.plan.uncertainty.covariance import CORD, CovarianceModel, Quantity
from companion.core.values.assumptions import Assumptions


class PreparedHypothesis:
    """A hypothesis with what a size of 1 does to the readings so far, whitened: `unit_shift`, one number a reading.

    `first`: how many noughts it begins with; `log_priors`: the logarithm of each size's prior.
    """

    __slots__ = ("_square", "_squared", "first", "hypothesis", "log_priors", "unit_shift")

    def __init__(self, hypothesis: Hypothesis) -> None:
        self.hypothesis = hypothesis
        self.unit_shift: list[float] = []
        self.first = 0
        self._square, self._squared = 0.0, 0  # the sum of the squares of so many
        self.log_priors = tuple(log(hypothesis.prior * size.share) for size in hypothesis.sizes)

    def extended(self, quantities: Sequence[Quantity], factor: Cholesky) -> PreparedHypothesis:
        """With the readings that came since."""
        for number in range(len(self.unit_shift), len(quantities)):
            reading = self.hypothesis.reading
            shift = self.hypothesis.unit_shift(quantities[number]) if reading is None else float(number == reading)
            row = factor.rows[number]
            if self.first < number:
                shift -= sum(map(mul, row[self.first : number], self.unit_shift[self.first :]))
            self.unit_shift.append(shift / row[number])
            if self.first == number and shift == 0:
                self.first += 1
        return self

    def shorten(self, readings: int) -> None:
        """Leave only what the first so many readings made of it."""
        del self.unit_shift[readings:]
        self.first = min(self.first, readings)
        self._square, self._squared = 0.0, 0

    @property
    def begun(self) -> bool:
        """Whether any reading could have shown it."""
        return self.first < len(self.unit_shift)

    def inner(self, whitened: Sequence[float]) -> float:
        """The inner product of a size of 1 with the readings' innovation, or with any other whitened vector."""
        total: float = sum(map(mul, whitened[self.first :], self.unit_shift[self.first :]))
        return total

    def square(self) -> float:
        """The inner product of a size of 1 with itself."""
        for shift in self.unit_shift[self._squared :]:
            self._square += shift * shift
        self._squared = len(self.unit_shift)
        return self._square


class HypothesisCache:
    """All hypotheses of one plan, each prepared once."""

    def __init__(self, model: CovarianceModel, assumptions: Assumptions) -> None:
        self.model = model
        self.assumptions = assumptions
        self._drift = [PreparedHypothesis(hypothesis) for hypothesis in tension_drift(model, assumptions)]
        self._segments: dict[tuple[Segment, bool], list[PreparedHypothesis]] = {}
        self._cuts: dict[int, PreparedHypothesis] = {}
        self._shortened: dict[Segment, PreparedHypothesis] = {}
        self._misreadings: dict[tuple[int, Quantity], PreparedHypothesis] = {}

    def shorten(self, readings: int) -> None:
        """Leave only what the first so many readings say: those after them are not the same any more."""
        for prepared in self._all():
            prepared.shorten(readings)
        for number, quantity in [key for key in self._misreadings if key[0] >= readings]:
            del self._misreadings[number, quantity]

    def _all(self) -> Iterator[PreparedHypothesis]:
        yield from self._drift
        for some in self._segments.values():
            yield from some
        yield from self._cuts.values()
        yield from self._shortened.values()
        yield from self._misreadings.values()

    def prepared(
        self, quantities: Sequence[Quantity], factor: Cholesky, counts: Sequence[BeadCount] = ()
    ) -> list[PreparedHypothesis]:
        """Every hypothesis that is weighed for these readings, also of faults that may still come. Where the beads
        were counted there is none that adds or loses a bead. `quantities` and `factor` begin as those of the call
        before did, up to where `shorten` has cut them off."""
        found = list(self._drift)
        found += self._of_cords(quantities)
        for segment in segments(self.model, quantities, counts):
            found += self.of_segment(segment, any(count.covers(segment) for count in counts))
        found += self._of_shortened_cords(quantities)
        found = [prepared.extended(quantities, factor) for prepared in found]
        return found + self.misreadings(quantities, factor)

    def misreadings(self, quantities: Sequence[Quantity], factor: Cholesky) -> list[PreparedHypothesis]:
        """That a reading was misread, one hypothesis for each of these."""
        for number, quantity in enumerate(quantities):
            if (number, quantity) not in self._misreadings:
                self._misreadings[number, quantity] = PreparedHypothesis(misreading(number, quantity, self.assumptions))
        found = (self._misreadings[number, quantity] for number, quantity in enumerate(quantities))
        return [prepared.extended(quantities, factor) for prepared in found]

    def _of_cords(self, quantities: Sequence[Quantity]) -> Iterator[PreparedHypothesis]:
        """For each entry whose free cord was read: its cord may have been cut otherwise."""
        for entry in sorted({quantity.entry for quantity in quantities if quantity.weights == CORD}):
            if entry not in self._cuts:
                self._cuts[entry] = PreparedHypothesis(wrong_cut(entry, self.assumptions))
            yield self._cuts[entry]

    def _of_shortened_cords(self, quantities: Sequence[Quantity]) -> Iterator[PreparedHypothesis]:
        """For each free-cord reading after another: the cord may have been shortened between the two."""
        places = sorted({(quantity.entry, quantity.elements) for quantity in quantities if quantity.weights == CORD})
        for (entry, first), (other, last) in pairwise(places):
            if entry != other:
                continue
            segment = Segment(entry, first, last)
            if segment not in self._shortened:
                hypothesis = cord_shortened(self.model, segment, self.assumptions)
                self._shortened[segment] = PreparedHypothesis(hypothesis)
            yield self._shortened[segment]

    def of_segment(self, segment: Segment, counted: bool) -> list[PreparedHypothesis]:
        """What may have begun, or may still begin, in a segment. `counted`: its beads were counted."""
        key = (segment, counted)
        if key not in self._segments:
            hypotheses = of_segment(self.model, segment, counted, self.assumptions)
            self._segments[key] = [PreparedHypothesis(hypothesis) for hypothesis in hypotheses]
        return self._segments[key]
