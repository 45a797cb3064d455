"""A plan as it stands after the maker chose to go on otherwise: what is made stays, the rest is worked out anew."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from companion.core.closures.joint import EndStep
from companion.core.closures.table import CLOSURES
from companion.core.journal.events import Changed
from companion.core.plan.covariance import Model
from companion.core.plan.cut import run_out_risk
from companion.core.plan.ends import end_steps, strand_end
from companion.core.plan.fit import length_and_diameter_mm, target_mm
from companion.core.plan.layout import bead_counts, knot_counts
from companion.core.plan.longest import longest_entries
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.plan.steps import Ends, element_mm, steps_of
from companion.core.values.design import KNOT_KINDS, Element, End, Strand
from companion.core.values.element_codes import from_code
from companion.core.values.expected import Expected
from companion.core.values.show_lengths import display_unit


def changed_plan(plan: Plan, changes: Iterable[Changed]) -> Plan:
    """The plan after these changes, in order."""
    for change in changes:
        for entry, made, rest in ((change.entry, change.made, change.rest), *change.more):
            elements = (*plan.strands[entry].elements[:made], *(from_code(code) for code in rest))
            own = entry == change.entry
            plan = with_rest(
                plan, entry, elements, change.closure_mm if own else 0.0, change.end_closure if own else ""
            )
    return plan


def with_rest(
    plan: Plan, entry: int, elements: Sequence[Element], closure_mm: float = 0.0, end_closure: str = ""
) -> Plan:
    """The plan with other elements in one entry, and a closure longer by `closure_mm`.

    `end_closure`: another closure at the entry's end, with its own cord, tail and steps; "" leaves the one that is
    there. The target of a wrist goes with the beads that lie along it. The cord is cut already: the cut stays, and the
    margin is what it leaves over the new need, which may be less than nothing.
    """
    entries = [strand.elements for strand in plan.strands]
    entries[entry] = tuple(elements)
    model = Model.of(plan.cord, plan.beads, entries)
    strands = list(plan.strands)
    strands[entry] = _strand(plan, strands[entry], tuple(elements), closure_mm, end_closure)
    spread = model.need_spread(entry)
    sized = replace(strands[entry], need_sd_mm=spread.sd_mm, need_degrees=min(spread.degrees, 1e9))
    strands[entry] = replace(sized, run_out_risk=run_out_risk(sized, sized.cut_mm / sized.layers))
    longest = longest_entries(strands)
    finished_mm = sum(strands[n].strand_length_mm + strands[n].closure_length_mm for n in longest)
    band = Expected(finished_mm, model.strand_sd_mm(longest))
    return replace(
        plan,
        strands=tuple(strands),
        target_mm=_target_mm(plan, strands, longest),
        longest=longest,
        finished_length_mm=finished_mm,
        finished_low95_mm=band.low95_mm,
        finished_high95_mm=band.high95_mm,
    )


def _target_mm(plan: Plan, strands: Sequence[PlannedStrand], longest: Sequence[int]) -> float | None:
    """The target with these strands: a wrist's depends on the thickness of what lies along the longest."""
    if plan.size is None:
        return None
    counts = Counter[str]()
    for number in longest:
        counts.update(dict(strands[number].beads))
    return target_mm(plan.size, length_and_diameter_mm(counts, {kind.key: kind for kind in plan.beads})[1])


def _other_end(
    plan: Plan, strand: PlannedStrand, elements: Sequence[Element], end_closure: str
) -> tuple[PlannedStrand, tuple[EndStep, ...]]:
    """The entry with another closure at its end, and the steps that make it; the length stays."""
    kinds = {kind.key: kind for kind in plan.beads}
    end = strand_end(
        Strand((), end=End(end_closure)), False, reversed(elements), kinds, plan.cord, display_unit(plan.unit)
    )
    figures = end.figures
    other = replace(
        strand, end_closure=end_closure, end_closure_cord_mm=figures.cord_mm, end_tail_mm=figures.tail_mm, finding=""
    )
    return other, end_steps(end, strand.side, end.joint)


def _strand(
    plan: Plan, old: PlannedStrand, elements: tuple[Element, ...], closure_mm: float, end_closure: str
) -> PlannedStrand:
    kinds = {kind.key: kind for kind in plan.beads}
    total = Counter(elements)
    knots = knot_counts(total)
    start, end = (
        tuple(EndStep(step.text, step.trims) for step in old.steps if step.kind == kind) for kind in ("start", "end")
    )
    if end_closure:
        old, end = _other_end(plan, old, elements, end_closure)
    else:  # a longer one of the same kind may need more cord
        cord_mm = old.end_closure_cord_mm + closure_mm * CLOSURES[old.end_closure].gives.cord_a_mm
        old = replace(old, end_closure_cord_mm=max(0.0, cord_mm))
    ends = Ends(
        old.start_tail_mm,
        old.start_closure_cord_mm,
        old.end_closure_cord_mm,
        old.end_tail_mm,
        start,
        end,
        already_on=_own_beads(old.start_closure, at_start=True),
        knotted_later=_own_beads(old.end_closure, at_start=False),
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


def _own_beads(closure: str, at_start: bool) -> int:
    """How many beads a closure ties knots of its own beside."""
    if not closure:
        return 0
    half = CLOSURES[closure].start if at_start else CLOSURES[closure].end
    return half.end_beads if half.own_knots else 0
