"""The count for every `fit` of a design whose knots are elsewhere: chosen as a plan chooses it, by what the elements
really come to."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

from companion.core.cord.cord import Cord
from companion.core.plan.fit import Measure, StrandSize
from companion.core.values.design import MOST_ELEMENTS, Design

_FAR = 2.0  # counts whose beads alone are so many times as long as the target are not looked at


class RemadeMeasure(Measure):
    """Lengths of a design at any count for every `fit`, as `remade` writes it out at that count."""

    def __init__(self, design: Design, cord: Cord, remade: Callable[[int], Design]) -> None:
        super().__init__(design, cord)
        self._remade, self._cord, self._far_mm = remade, cord, _far_mm(design)

    def sizes(self, count: int) -> tuple[StrandSize, ...]:
        """Every strand's size at that count."""
        if count not in self._sizes:
            self._sizes[count] = Measure(self._remade(count), self._cord).sizes(1)
        return self._sizes[count]

    def elements(self, count: int) -> int:
        """How many elements it comes to at most; too many where it is much too long, so that such counts, which would
        be written out in vain, are left out."""
        if self.beads_mm(count) > self._far_mm:
            return MOST_ELEMENTS + 1
        return 2 * super().elements(count)

    def beads_mm(self, count: int) -> float:
        """The beads of the strand that has most of them, by length, mm."""
        return max(sum(one.term.times(count) * one.beads_mm for one in sums) for sums in self._sums)


def _far_mm(design: Design) -> float:
    if design.size is None:
        return 0.0
    thickest_mm = max((kind.diameter_mm for kind in design.beads), default=0.0)
    return _FAR * design.size.turns * (design.size.body_mm + design.size.ease_mm + pi * thickest_mm)
