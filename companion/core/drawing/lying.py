"""The strands of a plan as they lie on the table, whole: the two sides of one worked from the middle in one piece."""

from __future__ import annotations

from collections import Counter

from msgspec.structs import replace

from companion.core.plan.longest import strand_groups
from companion.core.plan.plan import Plan, PlannedStrand


def as_it_lies(plan: Plan) -> Plan:
    """The plan with each strand in one entry, from its start to its end: to be drawn, not to be worked by."""
    groups = strand_groups(plan.strands)
    if len(groups) == len(plan.strands):
        return plan
    strands = (tuple(plan.strands[number] for number in group) for group in groups)
    return replace(plan, strands=tuple(map(_in_one, strands)))


def _in_one(sides: tuple[PlannedStrand, ...]) -> PlannedStrand:
    if len(sides) == 1:
        return sides[0]
    first, second = sides  # the second is worked from the middle to the strand's start
    return replace(
        first,
        label=first.name or first.label,
        side=None,
        elements=(*reversed(second.elements), *first.elements),
        beads=tuple((Counter(dict(first.beads)) + Counter(dict(second.beads))).items()),
        strand_length_mm=first.strand_length_mm + second.strand_length_mm,
        start_closure=second.end_closure,
    )
