"""The figures of a planned strand and of the whole plan, worked out the same way for new and for changed plans."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from msgspec.structs import replace

from companion.core.closures.joint import EndStep
from companion.core.cord.cord import FIRM
from companion.core.plan.cut import run_out_risk
from companion.core.plan.ends import outermost, own_beads
from companion.core.plan.fit import length_and_diameter_mm, target_mm
from companion.core.plan.layout import bare_mm, bead_counts, knot_counts
from companion.core.plan.longest import longest_entries
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.plan.steps import Ends, steps_of
from companion.core.plan.uncertainty.covariance import CovarianceModel, Spread
from companion.core.values.design import KNOT_KINDS, Element
from companion.core.values.expected import Expected


def with_elements(plan: Plan, strand: PlannedStrand, elements: Sequence[Element]) -> PlannedStrand:
    """The strand with these elements: their counts, its length, its take-up."""
    total = Counter(elements)
    beads, knots = bead_counts(total), knot_counts(total)
    beads_mm, _ = length_and_diameter_mm(beads, {kind.key: kind for kind in plan.beads})
    knots_mm = sum(knots[kind] * plan.cord.knot(kind).length_mm for kind in KNOT_KINDS)
    return replace(
        strand,
        elements=tuple(elements),
        beads=tuple(beads.items()),
        knots=tuple(knots.items()),
        strand_length_mm=beads_mm + bare_mm(total) + knots_mm,
        take_up_mm=sum(knots[kind] * plan.cord.knot(kind).take_up_mm for kind in KNOT_KINDS),
    )


def with_cut(strand: PlannedStrand, cut_mm: float, margin_mm: float, need: Spread) -> PlannedStrand:
    """The strand cut to that length (whole, mm); its margin is what the cut leaves over what one layer should need."""
    sized = replace(
        strand, cut_mm=cut_mm, margin_mm=margin_mm, need_sd_mm=need.sd_mm, need_degrees=min(need.degrees, FIRM)
    )
    return replace(sized, run_out_risk=run_out_risk(sized, cut_mm / strand.layers))


def with_steps(
    plan: Plan, strand: PlannedStrand, start: tuple[EndStep, ...], end: tuple[EndStep, ...]
) -> PlannedStrand:
    """The strand with its steps; `start` and `end`: those of its two ends."""
    ends = Ends(
        strand.start_tail_mm,
        strand.start_closure_cord_mm,
        strand.end_closure_cord_mm,
        strand.end_tail_mm,
        start,
        end,
        already_on=own_beads(strand.start_closure, at_start=True),
        knotted_later=own_beads(strand.end_closure, at_start=False),
        strung_first=strand.strung_all_first,
        knotted_before=_knotted_before(strand),
        told_as=strand.told_as,
    )
    kinds = {kind.key: kind for kind in plan.beads}
    a_layer_mm = strand.cut_mm / strand.layers
    return replace(strand, steps=steps_of(strand.elements, ends, a_layer_mm, kinds, plan.cord, plan.unit))


def _knotted_before(strand: PlannedStrand) -> bool:
    """Whether the start's own steps have tied every knot beside the beads that are on already: the layout has none."""
    on = own_beads(strand.start_closure, at_start=True)
    return bool(on) and strand.told_as > 1 and not any(outermost(strand.elements).knotted[:on])


def with_strands(plan: Plan, strands: Sequence[PlannedStrand], model: CovarianceModel) -> Plan:
    """The plan with these strands: its finished length with its 95 % interval, and its target."""
    longest = longest_entries(strands)
    finished_mm = sum(strands[n].strand_length_mm + strands[n].closure_length_mm for n in longest)
    finished = Expected(finished_mm, model.strand_sd_mm(longest))
    return replace(
        plan,
        strands=tuple(strands),
        longest=longest,
        target_mm=_target_mm(plan, strands, longest),
        finished_length_mm=finished_mm,
        finished_low95_mm=finished.low95_mm,
        finished_high95_mm=finished.high95_mm,
    )


def _target_mm(plan: Plan, strands: Sequence[PlannedStrand], longest: Sequence[int]) -> float | None:
    """The target with these strands: a wrist's depends on the thickness of what lies along the longest."""
    if plan.size is None:
        return None
    counts = Counter[str]()
    for number in longest:
        counts.update(dict(strands[number].beads))
    return target_mm(plan.size, length_and_diameter_mm(counts, {kind.key: kind for kind in plan.beads})[1])
