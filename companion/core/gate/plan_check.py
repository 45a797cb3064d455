"""Whether a plan from outside can be one that was made here: what it says of a strand follows from its elements."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import chain

from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import Cord
from companion.core.plan.plan import Plan, PlannedStrand, Step, element_mm
from companion.core.values.design import KNOT_KINDS, MOST_ELEMENTS, MOST_LAYERS, Bead, BeadKind, Knot
from companion.core.values.measures.length_grammar import MM_PER_UNIT
from companion.core.values.measures.units import MOST_MM

MOST_CUT_MM = 1e9  # a thousand kilometres: far from any piece, and near enough for sums to hold
NEAR_MM = 1e-3  # sums taken in another order may differ by so much over a hundred thousand elements


def plan_fault(plan: Plan) -> str:
    """What is impossible in a plan, in words; "" if nothing is."""
    return next(chain(_whole(plan), _cord(plan.cord), _beads(plan), _strands(plan)), "")


def _whole(plan: Plan) -> Iterator[str]:
    if not plan.strands or sum(len(strand.elements) for strand in plan.strands) > MOST_ELEMENTS:
        yield f"a plan has 1 to {MOST_ELEMENTS:,} elements"
    if plan.unit not in MM_PER_UNIT:
        yield "the unit is none"
    if not 0 < plan.risk < 1:
        yield "a risk is between 0 and 1"
    if (plan.target_mm is None) != (plan.tolerance_mm is None) or (plan.size is None) != (plan.target_mm is None):
        yield "a size comes with a target and a tolerance"
    lengths = [plan.finished_length_mm, plan.target_mm or 1.0, (plan.tolerance_mm or 0.0) + 1.0]
    lengths += [cut.cut_mm for cut in plan.cuts] + [cord.cut_mm for cord in plan.extra_cords]
    if min(lengths) <= 0 or plan.finished_low95_mm > plan.finished_high95_mm:
        yield "a length is above 0"
    if plan.size and (plan.size.body_mm <= 0 or plan.size.ease_mm < 0 or plan.size.tolerance_mm < 0):
        yield "a size is above 0"
    entries = range(len(plan.strands))
    if sorted(entry for cut in plan.cuts for entry in cut.entries) != list(entries):
        yield "every entry is cut once"
        return
    for cut in plan.cuts:
        if abs(cut.cut_mm - sum(plan.strands[entry].cut_mm for entry in cut.entries)) > NEAR_MM:
            yield "a cut is not that of its entries"
    if not plan.longest or not set(plan.longest) <= set(entries) or len(set(plan.longest)) != len(plan.longest):
        yield "the longest entry is none of them"
    if any(not 1 <= layers <= MOST_LAYERS for layers in (plan.cord.layers, *(cut.layers for cut in plan.cuts))):
        yield f"1 to {MOST_LAYERS} layers are expected"


def _cord(cord: Cord) -> Iterator[str]:
    if not 0 < cord.diameter_mm <= MOST_MM:
        yield "a cord's diameter is above 0"
    for kind in KNOT_KINDS:
        figures = cord.knot(kind)
        spreads = (figures.take_up_sd_mm, figures.length_sd_mm, figures.take_up_scatter_mm, figures.length_scatter_mm)
        if min(figures.take_up_mm, figures.length_mm, *spreads) < 0 or figures.degrees < 1:
            yield f"what a {kind} knot takes is 0 or more"
        if max(figures.take_up_mm, figures.length_mm, *spreads) > MOST_MM:
            yield f"what a {kind} knot takes is at most 1 km"


def _beads(plan: Plan) -> Iterator[str]:
    if len({bead.key for bead in plan.beads}) != len(plan.beads):
        yield "a bead is there twice"
    for bead in plan.beads:
        holes = () if bead.hole_mm is None else (bead.hole_mm,)
        if not all(0 < length <= MOST_MM for length in (bead.length_mm, bead.diameter_mm, *holes)):
            yield "a bead's length, diameter and hole are above 0"


def _strands(plan: Plan) -> Iterator[str]:
    beads = {bead.key: bead for bead in plan.beads}
    if len({strand.label for strand in plan.strands}) != len(plan.strands):
        yield "two entries have one name"
    for strand in plan.strands:
        keys = {element.key for element in strand.elements if isinstance(element, Bead)}
        keys |= {key for step in strand.steps for key in step.beads}
        if not keys <= set(beads):
            yield "a bead is in the strand and not among the beads"
            return
        yield from _strand(strand)
        yield from _sums(strand, beads, plan.cord)
        yield from _cut(strand)


def _strand(strand: PlannedStrand) -> Iterator[str]:
    if not strand.elements or not strand.steps:
        yield "a strand has elements and steps"
    in_the_middle = strand.side is not None and strand.start_closure == ""  # a side begins where nothing closes
    if strand.end_closure not in CLOSURES or not (in_the_middle or strand.start_closure in CLOSURES):
        yield "a closure is none of those there are"
    if not 1 <= strand.layers <= MOST_LAYERS or not 0 < strand.cut_mm <= MOST_CUT_MM:
        yield "a strand is cut, in 1 to 8 layers"
    parts = (strand.start_tail_mm, strand.start_closure_cord_mm, strand.end_closure_cord_mm, strand.end_tail_mm)
    if min(*parts, strand.working_allowance_mm, strand.closure_length_mm, strand.need_sd_mm) < 0:
        yield "a length is 0 or more"
    if not 0 <= strand.run_out_risk <= 1 or strand.need_degrees < 1:
        yield "a risk is between 0 and 1"
    if [step.number for step in strand.steps] != list(range(1, len(strand.steps) + 1)):
        yield "steps are numbered from 1"
    kinds = [step.kind for step in strand.steps]
    if kinds != sorted(kinds, key=("start", "string", "end").index):
        yield "start steps come first and end steps last"


def _cut(strand: PlannedStrand) -> Iterator[str]:
    """What is cut against what is needed and what each step leaves."""
    layer_mm = strand.cut_mm / strand.layers
    if abs(layer_mm - strand.need_mm - strand.margin_mm) > NEAR_MM:
        yield "the cut is not what is needed and the margin"
    if any(abs(step.free_cord_mm + step.cord_used_mm - layer_mm) > NEAR_MM for step in strand.steps):
        yield "the free cord of a step is not what the cut leaves"


def _sums(strand: PlannedStrand, beads: dict[str, BeadKind], cord: Cord) -> Iterator[str]:
    """Lengths along the strand, worked out again from its elements."""
    lengths = [element_mm(element, beads, cord) for element in strand.elements]
    if min(lengths, default=0.0) < 0:
        yield "a length is 0 or more"
    at_mm = [0.0]
    for length in lengths:
        at_mm.append(at_mm[-1] + length)
    last = 0
    for step in strand.steps:
        if not last <= step.elements <= len(strand.elements) or (step.elements == last and step.kind == "string"):
            yield "a step ends where none can"
            return
        if abs(step.strand_mm - at_mm[step.elements]) > NEAR_MM:
            yield "a step's length is not that of its elements"
        if step.kind == "string" and not _made_of(step, strand, last):
            yield "a step's words are not its elements"
        last = step.elements
    if last != len(strand.elements) or abs(strand.strand_length_mm - at_mm[-1]) > NEAR_MM:
        yield "the strand's length is not that of its elements"
    counts = Counter(element.key for element in strand.elements if isinstance(element, Bead))
    knots = Counter(element.kind for element in strand.elements if isinstance(element, Knot))
    if Counter(dict(strand.beads)) != counts or Counter(dict(strand.knots)) != knots:
        yield "the counts are not those of the elements"
    if abs(strand.take_up_mm - sum(count * cord.knot(kind).take_up_mm for kind, count in knots.items())) > NEAR_MM:
        yield "the take-up is not that of the knots"


def _made_of(step: Step, strand: PlannedStrand, last: int) -> bool:
    elements = strand.elements[last : step.elements]
    return step.beads == tuple(element.key for element in elements if isinstance(element, Bead))
