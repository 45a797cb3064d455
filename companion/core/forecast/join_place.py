"""Where new cord can be joined on: inside a bead that takes the old cords and the new ones side by side."""

from __future__ import annotations

from msgspec import Struct

from companion.core.closures.table import CLOSURES
from companion.core.cord.holes import roomy_hole_mm
from companion.core.forecast.cord_budget import last_string_step
from companion.core.forecast.outlook import Outlook
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.values.design import Knot


class JoinPlace(Struct, frozen=True):
    """A bead still to come, as a step of an entry and the bead's key. `hole_known`: the design gives its hole."""

    entry: int
    step: int
    bead: str
    hole_known: bool


def cords_in_a_join(plan: Plan) -> int:
    """How many cords lie side by side where new cord is joined on: the old ones and the new ones."""
    return 2 * plan.cord.layers


def can_be_joined(plan: Plan, outlook: Outlook) -> bool:
    """Whether any bead or knot of the endangered entry is still to come, for which new cord could be of use."""
    number = outlook.worst_cord
    return outlook.entries[number].done < last_string_step(plan, number)


def join_place(plan: Plan, outlook: Outlook) -> JoinPlace | None:
    """The longest bead still to come that the old cord reaches and whose hole takes both cords with room to spare; of
    beads alike, the last. None where no bead takes them. A bead shorter than a knot hides no join, nor do the last
    ones where the closure brings the cord back through them.

    A hole that the design does not give may take them: such a bead stands behind those whose hole is known.
    """
    number = outlook.worst_cord
    entry, strand = outlook.entries[number], plan.strands[number]
    least_hole_mm = roomy_hole_mm(plan.cord.diameter_mm, cords_in_a_join(plan))
    kinds = {element.kind for element in strand.elements if isinstance(element, Knot)}
    knot_mm = max((plan.cord.knot(kind).length_mm for kind in kinds), default=0.0)
    end = entry.cord.step if entry.cord.step is not None else last_string_step(plan, number) + 1
    found = []
    for step in strand.steps[entry.done : min(max(entry.done, end - 1), _first_of_the_end(strand) - 1)]:
        for key in step.beads:
            kind = plan.bead(key)
            if kind.length_mm > knot_mm and (kind.hole_mm is None or kind.hole_mm >= least_hole_mm):
                known = kind.hole_mm is not None
                found.append(((known, kind.length_mm, step.number), JoinPlace(number, step.number, key, known)))
    return max(found, key=lambda one: one[0])[1] if found else None


def _first_of_the_end(strand: PlannedStrand) -> int:
    """The first step of beads that the closure's cord comes back through; the one after the last for none."""
    closure_end = CLOSURES[strand.end_closure].end
    ends = closure_end.end_beads if closure_end.passes else 0
    for step in reversed(strand.steps):
        if ends <= 0:
            return step.number + 1
        ends -= len(step.beads)
        if step.beads and ends <= 0:
            return step.number
    return 1
