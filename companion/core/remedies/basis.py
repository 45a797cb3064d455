"""What every remedy starts from: a strand, how much of it is done, and how long its parts are today."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from itertools import pairwise

from msgspec import Struct

from companion.core.cord.holes import holds
from companion.core.forecast.outlook import Outlook
from companion.core.plan.plan import Plan, element_mm
from companion.core.remedies.remaining_layout import Edit, RemainingLayout, RemainingSide
from companion.core.values.design import Bead, BeadKind, Element, Knot

RATE_LIMITS = (0.5, 1.7)  # today's knots are not taken to be further from the cord's figures than this; our own choice


class RemedyBasis(Struct, frozen=True, dict=True):
    """One strand under way. `knot_rate`: how long its coming knots are expected to be, as a multiple of the cord's
    figures."""

    plan: Plan
    layout: RemainingLayout
    knot_rate: float

    @classmethod
    def of(cls, plan: Plan, layout: RemainingLayout, outlook: Outlook) -> RemedyBasis:
        """The strand, with the knots still to come as long as the forecast expects."""
        basis = cls(plan, layout, 1.0)
        left = [element for side in layout.sides for element in side.elements[side.made :]]
        knots_mm = sum(basis.mm(element) for element in left if isinstance(element, Knot))
        others_mm = sum(basis.mm(element) for element in left) - knots_mm
        if knots_mm <= 0:
            return basis
        ends = (outlook.entries[side.entry] for side in layout.sides)
        expected_mm = sum(entry.strand_end.mean_mm - entry.strand_now.mean_mm for entry in ends)
        low, high = RATE_LIMITS
        return cls(plan, layout, min(high, max(low, (expected_mm - others_mm) / knots_mm)))

    @cached_property
    def kinds(self) -> dict[str, BeadKind]:
        """The kinds of bead by key."""
        return {kind.key: kind for kind in self.plan.beads}

    @cached_property
    def names(self) -> dict[str, str]:
        """The names of the kinds of bead by key."""
        return {kind.key: kind.name for kind in self.plan.beads}

    def mm(self, element: Element) -> float:
        """How long one element is expected to be today, mm."""
        rate = self.knot_rate if isinstance(element, Knot) else 1.0
        return rate * element_mm(element, self.kinds, self.plan.cord)

    def cord_mm(self, element: Element) -> float:
        """How much cord one element uses by the plan, mm a layer."""
        take_up_mm = self.plan.cord.knot(element.kind).take_up_mm if isinstance(element, Knot) else 0.0
        return element_mm(element, self.kinds, self.plan.cord) + take_up_mm

    def gain_mm(self, edits: Iterable[Edit]) -> float:
        """How much longer these edits make the strand, mm."""
        total = 0.0
        for edit in edits:
            old = self.side(edit.entry).elements[edit.start : edit.stop]
            total += sum(map(self.mm, edit.elements)) - sum(map(self.mm, old))
        return total

    def side(self, entry: int) -> RemainingSide:
        """That entry of the plan."""
        return next(side for side in self.layout.sides if side.entry == entry)

    def holds(self, knot: Knot, key: str) -> bool:
        """Whether a knot may go beside that bead: it holds the bead, or the design already has such a knot there."""
        hole_mm = self.kinds[key].hole_mm
        cord = self.plan.cord
        if hole_mm is None or holds(knot.kind, cord.diameter_mm, cord.layers, hole_mm) == "holds":
            return True
        return (knot, key) in self._beside_already

    def all_hold(self, edits: Iterable[Edit]) -> bool:
        """Whether every knot still holds the beads beside it after these edits."""
        return all(self.holds(knot, key) for knot, key in knots_beside_beads(self.layout.after(edits)))

    @cached_property
    def _beside_already(self) -> set[tuple[Knot, str]]:
        return knots_beside_beads(self.layout.whole)


def knots_beside_beads(elements: Sequence[Element]) -> set[tuple[Knot, str]]:
    """Each kind of knot, with the key of every bead that one stands beside."""
    pairs = [*pairwise(elements), *pairwise(reversed(elements))]
    return {(one, other.key) for one, other in pairs if isinstance(one, Knot) and isinstance(other, Bead)}
