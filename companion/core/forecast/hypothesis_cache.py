"""The stories of one plan, kept from reading to reading: a new reading adds one number to each that is there already.

A story's shift is whitened by the same factor as the readings, row by row, so what earlier readings made of it stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import log
from operator import mul

from companion.core.forecast.hypotheses import (
    Count,
    Hypothesis,
    lasting,
    misreading,
    of_stretch,
    shortened,
    stretches,
    wrong_cut,
)
from companion.core.maths.gaussian import Cholesky
from companion.core.plan.covariance import CORD, CovarianceModel, Quantity
from companion.core.values.assumptions import Assumptions


class PreparedHypothesis:
    """A cause with what a size of 1 does to the readings so far, whitened: nought up to the first that it touches."""

    __slots__ = ("first", "hypothesis", "log_shares", "unit")

    def __init__(self, hypothesis: Hypothesis) -> None:
        self.hypothesis = hypothesis
        self.unit: list[float] = []
        self.first = 0  # how many noughts it begins with
        self.log_shares = tuple(log(hypothesis.prior * share) for _, share, _ in hypothesis.sizes)

    def extended(self, quantities: Sequence[Quantity], factor: Cholesky) -> PreparedHypothesis:
        """With the readings that came since."""
        for number in range(len(self.unit), len(quantities)):
            reading = self.hypothesis.reading
            shift = self.hypothesis.unit(quantities[number]) if reading is None else float(number == reading)
            row = factor.rows[number]
            if self.first < number:
                shift -= sum(map(mul, row[self.first : number], self.unit[self.first :]))
            self.unit.append(shift / row[number])
            if self.first == number and shift == 0:
                self.first += 1
        return self

    def kept(self, readings: int) -> None:
        """Only what the first so many readings made of it."""
        del self.unit[readings:]
        self.first = min(self.first, readings)

    @property
    def begun(self) -> bool:
        """Whether any reading could have shown it."""
        return self.first < len(self.unit)

    def along(self, whitened: Sequence[float]) -> float:
        """u·d for a size of 1, or the like for any other whitened vector."""
        total: float = sum(map(mul, whitened[self.first :], self.unit[self.first :]))
        return total

    def square(self) -> float:
        """d·d for a size of 1."""
        tail = self.unit[self.first :]
        total: float = sum(map(mul, tail, tail))
        return total


class HypothesisCache:
    """All causes for one plan."""

    def __init__(self, model: CovarianceModel, assumptions: Assumptions) -> None:
        self.model = model
        self.assumptions = assumptions
        self._lasting = [PreparedHypothesis(hypothesis) for hypothesis in lasting(model, assumptions)]
        self._stretches: dict[tuple[int, int, int, bool], list[PreparedHypothesis]] = {}
        self._cuts: dict[int, PreparedHypothesis] = {}
        self._shorter: dict[tuple[int, int, int], PreparedHypothesis] = {}
        self._misreadings: dict[tuple[int, Quantity], PreparedHypothesis] = {}

    def keep(self, readings: int) -> None:
        """Only the first so many readings stand: those after them were taken back, or were others."""
        for prepared in self._all():
            prepared.kept(readings)
        for number, quantity in [key for key in self._misreadings if key[0] >= readings]:
            del self._misreadings[number, quantity]

    def _all(self) -> Iterator[PreparedHypothesis]:
        yield from self._lasting
        for some in self._stretches.values():
            yield from some
        yield from self._cuts.values()
        yield from self._shorter.values()
        yield from self._misreadings.values()

    def prepared(
        self, quantities: Sequence[Quantity], factor: Cholesky, counts: Sequence[Count] = ()
    ) -> list[PreparedHypothesis]:
        """Every cause that is weighed for these readings, those that may still come among them; where the beads were
        counted none that adds or loses a bead. `looks` and `factor` go on from those of the call before, or from what
        `keep` left of them."""
        found = list(self._lasting)
        for entry in sorted({quantity.entry for quantity in quantities if quantity.weights == CORD}):
            if entry not in self._cuts:
                self._cuts[entry] = PreparedHypothesis(wrong_cut(entry, self.assumptions))
            found.append(self._cuts[entry])
        for entry, first, last in stretches(self.model, quantities, counts):
            found += self._stretch(entry, first, last, any(count.holds(entry, first, last) for count in counts))
        found += self._shortened(quantities)
        for number, quantity in enumerate(quantities):
            if (number, quantity) not in self._misreadings:
                self._misreadings[number, quantity] = PreparedHypothesis(misreading(number, quantity, self.assumptions))
            found.append(self._misreadings[number, quantity])
        return [prepared.extended(quantities, factor) for prepared in found]

    def _shortened(self, quantities: Sequence[Quantity]) -> list[PreparedHypothesis]:
        """For each free-cord reading after another: the cord may have been shortened between the two."""
        found = []
        whole = max(1, sum(running.elements for running in self.model.entries))
        for entry in sorted({quantity.entry for quantity in quantities if quantity.weights == CORD}):
            stops = sorted(
                {quantity.elements for quantity in quantities if quantity.entry == entry and quantity.weights == CORD}
            )
            for first, last in pairwise(stops):
                if (entry, first, last) not in self._shorter:
                    hypothesis = shortened(entry, first, last, (last - first) / whole, self.assumptions)
                    self._shorter[entry, first, last] = PreparedHypothesis(hypothesis)
                found.append(self._shorter[entry, first, last])
        return found

    def miscounts(
        self, quantities: Sequence[Quantity], factor: Cholesky, whitened: Sequence[float], counts: Sequence[Count]
    ) -> list[tuple[PreparedHypothesis, float]]:
        """For each count that was not right the likeliest cause, as the readings say, with its size in beads."""
        found = []
        for part in sorted({count.part for count in counts if count.beads}):
            mine = [count for count in counts if count.part == part]
            inside = [s for s in stretches(self.model, quantities, counts) if any(count.holds(*s) for count in mine)]
            beads = [k for s in inside for k in self._stretch(*s, False) if k.hypothesis.sizes[0][2] == "bead missed"]
            if beads:
                size = float(mine[0].beads)
                likeliest = max(
                    (prepared.extended(quantities, factor) for prepared in beads),
                    key=lambda prepared: (
                        prepared.log_shares[0] + size * prepared.along(whitened) - size * size * prepared.square() / 2
                    ),
                )
                found.append((likeliest, size))
        return found

    def _stretch(self, entry: int, first: int, last: int, counted: bool) -> list[PreparedHypothesis]:
        key = (entry, first, last, counted)
        if key not in self._stretches:
            hypotheses = of_stretch(self.model, entry, first, last, counted, self.assumptions)
            self._stretches[key] = [PreparedHypothesis(hypothesis) for hypothesis in hypotheses]
        return self._stretches[key]
