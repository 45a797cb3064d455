"""A plan as it stands after the maker chose to go on otherwise: what is made stays, the rest is worked out anew."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from companion.core.cut import run_out_risk
from companion.core.design import KNOT_KINDS, Element
from companion.core.element_codes import from_code
from companion.core.events import Changed
from companion.core.layout import bead_counts, knot_counts, tally
from companion.core.longest import longest_entries
from companion.core.model import Model
from companion.core.outlook import Expected
from companion.core.plan import Plan, PlannedStrand
from companion.core.steps import Ends, element_mm, steps_of


def changed_plan(plan: Plan, changes: Iterable[Changed]) -> Plan:
    """The plan after these changes, in order."""
    for change in changes:
        elements = (*plan.strands[change.entry].elements[: change.made], *(from_code(code) for code in change.rest))
        plan = with_rest(plan, change.entry, elements, change.closure_mm)
    return plan


def with_rest(plan: Plan, entry: int, elements: Sequence[Element], closure_mm: float = 0.0) -> Plan:
    """The plan with other elements in one entry, and a closure longer by `closure_mm`.

    The cord is cut already: the cut stays, and the margin is what it leaves over the new need, which may be less than
    nothing.
    """
    entries = [strand.elements for strand in plan.strands]
    entries[entry] = tuple(elements)
    model = Model.of(plan.cord, plan.beads, entries)
    strands = list(plan.strands)
    strands[entry] = _strand(plan, strands[entry], tuple(elements), closure_mm)
    spread = model.need_spread(entry)
    sized = replace(strands[entry], need_sd_mm=spread.sd_mm, need_degrees=min(spread.degrees, 1e9))
    strands[entry] = replace(sized, run_out_risk=run_out_risk(sized, sized.cut_mm / sized.layers))
    longest = longest_entries(strands)
    finished_mm = sum(strands[n].strand_length_mm + strands[n].closure_length_mm for n in longest)
    band = Expected(finished_mm, model.strand_sd_mm(longest))
    return replace(
        plan,
        strands=tuple(strands),
        longest=longest,
        finished_length_mm=finished_mm,
        finished_low95_mm=band.low95_mm,
        finished_high95_mm=band.high95_mm,
    )


def _strand(plan: Plan, old: PlannedStrand, elements: tuple[Element, ...], closure_mm: float) -> PlannedStrand:
    kinds = {kind.key: kind for kind in plan.beads}
    total = tally(elements)
    knots = knot_counts(total)
    texts = {kind: tuple(step.text for step in old.steps if step.kind == kind) for kind in ("start", "end")}
    ends = Ends(
        old.start_tail_mm,
        old.start_closure_cord_mm,
        old.end_closure_cord_mm,
        old.end_tail_mm,
        texts["start"],
        texts["end"],
    )
    new = replace(
        old,
        elements=elements,
        steps=steps_of(elements, ends, old.cut_mm / old.layers, kinds, plan.cord, plan.unit),
        beads=tuple(bead_counts(total).items()),
        knots=tuple(knots.items()),
        strand_length_mm=sum(count * element_mm(element, kinds, plan.cord) for element, count in total.items()),
        take_up_mm=sum(knots[kind] * plan.cord.knot(kind).take_up_mm for kind in KNOT_KINDS),
        closure_length_mm=old.closure_length_mm + closure_mm,
        margin_mm=0.0,
    )
    return replace(new, margin_mm=old.cut_mm / old.layers - new.need_mm)
