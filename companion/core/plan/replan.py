"""A plan after the maker chose another way to go on: what is made stays, and the rest is planned again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import takewhile

from msgspec.structs import replace

from companion.core.closures.closure import Give
from companion.core.closures.joint import EndFigures, EndStep
from companion.core.closures.table import CLOSURES
from companion.core.journal.events import Changed
from companion.core.plan.ends import end_steps, strand_end
from companion.core.plan.plan import Plan, PlannedStrand, Step
from companion.core.plan.strand_figures import with_cut, with_elements, with_steps, with_strands
from companion.core.plan.uncertainty.covariance import CovarianceModel
from companion.core.values.design import Element, End, Space, Strand
from companion.core.values.element_codes import from_code
from companion.core.values.element_words import WHERE_IT_BEGINS
from companion.core.values.measures.show_lengths import DisplayUnit, difference, display_unit, show
from companion.core.values.text import sentences

SAME_MM = 1e-6  # two figures nearer than this are the same


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


def same_steps_made(plan: Plan, other: Plan, done: int) -> bool:
    """Whether the steps that are made are the same in both plans: each ends at the same element of the same entry, and
    asks for the same (a knot that was left for the clasp can't be tied once other beads follow)."""
    for step in range(1, done + 1):
        try:
            (entry, number), place = plan.place(step), other.place(step)
        except IndexError:
            return False
        mine, theirs = plan.strands[entry].steps[number - 1], other.strands[entry].steps[number - 1]
        same = (mine.elements, mine.kind, _asked(mine)) == (theirs.elements, theirs.kind, _asked(theirs))
        if place != (entry, number) or not same:
            return False
    return True


def _asked(step: Step) -> str:
    """What a step asks for. Plans kept before did not say where a strand begins: that is no other step."""
    return step.text.removesuffix(f", {WHERE_IT_BEGINS}")


def with_rest(
    plan: Plan, entry: int, elements: Sequence[Element], closure_mm: float = 0.0, end_closure: str = ""
) -> Plan:
    """The plan with other elements in one entry, and a closure longer by `closure_mm`.

    `end_closure`: another closure at the entry's end, with its own cord, tail and steps; "" leaves the one that is
    there. The target of a wrist goes with the beads that lie along it. The cord is cut already: the cut stays, and the
    margin is what it leaves over the new need, which may be less than nothing.
    """
    old = plan.strands[entry]
    start, end = (
        tuple(EndStep(step.text, step.trims, step.closes) for step in old.steps if step.kind == kind)
        for kind in ("start", "end")
    )
    if end_closure:
        strand, end = _other_end(plan, old, elements, end_closure)
    else:
        strand = _longer_end(_with_own_knots(plan, entry, elements), closure_mm)
        end = _kept_open(end, old.elements, elements, display_unit(plan.unit))
        end = _said_longer(end, CLOSURES[old.end_closure].gives, closure_mm, display_unit(plan.unit))
    strand = replace(strand, closure_length_mm=strand.closure_length_mm + closure_mm)
    strand = with_elements(plan, strand, elements)
    entries = [other.elements for other in plan.strands]
    entries[entry] = strand.elements
    model = CovarianceModel.of(plan.cord, plan.beads, entries)
    margin_mm = old.cut_mm / old.layers - strand.need_mm
    strand = with_steps(plan, with_cut(strand, old.cut_mm, margin_mm, model.need_spread(entry)), start, end)
    return with_strands(plan, [*plan.strands[:entry], strand, *plan.strands[entry + 1 :]], model)


def _with_own_knots(plan: Plan, entry: int, elements: Sequence[Element]) -> PlannedStrand:
    """The entry with the knots that its closures tie by themselves, where the layout has none beside the last beads:
    with other elements they may be more or fewer. Figures that the design writes stay as they are."""
    old = plan.strands[entry]
    before, after = (_usual_ends(plan, entry, lying) for lying in (old.elements, elements))
    as_usual = abs(sum(end.length_mm for end in before) - old.closure_length_mm) < SAME_MM
    written = old.lengths_written or (not as_usual,) * len(before)
    longer_mm = sum(
        new.length_mm - was.length_mm for was, new, one in zip(before, after, written, strict=True) if not one
    )
    changes_cord = abs(before[-1].cord_mm - old.end_closure_cord_mm) < SAME_MM
    return replace(
        old,
        closure_length_mm=old.closure_length_mm + longer_mm,
        end_closure_cord_mm=after[-1].cord_mm if changes_cord else old.end_closure_cord_mm,
    )


def _usual_ends(plan: Plan, entry: int, elements: Sequence[Element]) -> tuple[EndFigures, ...]:
    """What the closures at an entry's ends usually take beside these elements: the last of them is made last."""
    strand, kinds = plan.strands[entry], {kind.key: kind for kind in plan.beads}
    unit, size_mm = display_unit(plan.unit), strand.finding_mm
    if strand.side is None:
        closed = Strand((), End(strand.start_closure, size_mm=size_mm), End(strand.end_closure, size_mm=size_mm))
        start = strand_end(closed, True, elements, kinds, plan.cord, unit)
        return start.figures, strand_end(closed, False, reversed(elements), kinds, plan.cord, unit).figures
    other = plan.strands[entry + 1 if strand.side == "first" else entry - 1]
    inward = (*reversed(elements), *other.elements)
    end = End(strand.end_closure, size_mm=size_mm)
    closed = Strand((), end, end, work="from the middle")
    return (strand_end(closed, strand.side == "second", inward, kinds, plan.cord, unit).figures,)


def _kept_open(
    end: tuple[EndStep, ...], old: Sequence[Element], new: Sequence[Element], unit: DisplayUnit
) -> tuple[EndStep, ...]:
    """The same steps; the first of them says that bare cord which now lies before the closure is to be left so."""
    was, now = (_open_words(_bare_at_the_end(elements), unit) for elements in (old, new))
    if not end or was == now:
        return end
    return (replace(end[0], text=sentences(end[0].text.removesuffix(was).rstrip(), now)), *end[1:])


def _open_words(bare_mm: float, unit: DisplayUnit) -> str:
    return f"Leave the {show(bare_mm, unit)} of bare cord before it open: do not draw it up." if bare_mm else ""


def _bare_at_the_end(elements: Sequence[Element]) -> float:
    bare = takewhile(lambda element: isinstance(element, Space), reversed(elements))
    return sum(one.length_mm for one in bare if isinstance(one, Space))


def _said_longer(end: tuple[EndStep, ...], gives: Give, closure_mm: float, unit: DisplayUnit) -> tuple[EndStep, ...]:
    """The same steps; the one that fits what is to be longer or shorter than planned says so."""
    if not end or abs(closure_mm) < SAME_MM:
        return end
    run, how = ("longer", gives.longer_how) if closure_mm > 0 else ("shorter", gives.shorter_how)
    said = f"This end is to come out {difference(closure_mm, unit)} {run} than planned{f': {how}' if how else ''}."
    steps = list(end)
    steps[gives.fitted] = replace(steps[gives.fitted], text=sentences(steps[gives.fitted].text, said))
    return tuple(steps)


def _longer_end(strand: PlannedStrand, closure_mm: float) -> PlannedStrand:
    """The entry with the same closure at its end, so much longer: it may need more cord."""
    cord_mm = strand.end_closure_cord_mm + closure_mm * CLOSURES[strand.end_closure].gives.cord_a_mm
    return replace(strand, end_closure_cord_mm=max(0.0, cord_mm))


def _other_end(
    plan: Plan, strand: PlannedStrand, elements: Sequence[Element], end_closure: str
) -> tuple[PlannedStrand, tuple[EndStep, ...]]:
    """The entry with another closure at its end, and the steps that make it; the length stays."""
    kinds = {kind.key: kind for kind in plan.beads}
    closed = Strand((), end=End(end_closure))
    end = strand_end(closed, False, reversed(elements), kinds, plan.cord, display_unit(plan.unit))
    cord_mm, tail_mm = end.figures.cord_mm, end.figures.tail_mm
    other = replace(strand, end_closure=end_closure, end_closure_cord_mm=cord_mm, end_tail_mm=tail_mm, finding="")
    return other, end_steps(end, strand.side, end.joint, strand.clipped)
