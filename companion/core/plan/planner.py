"""From a design to a compiled plan. Pure: the same design gives the same plan."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec.structs import replace

from companion.core.closures.joint import Joint
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import CardFigures, Cord, cord_of
from companion.core.plan.checks import warnings as checks
from companion.core.plan.checks.closure_warnings import closure_warnings, opened_mm
from companion.core.plan.cut import margin_mm, working_allowance_mm
from companion.core.plan.ends import strung_all_first
from companion.core.plan.entries import Entry, entries_of, steps_after, steps_before
from companion.core.plan.fit import Measure, choose_fit
from companion.core.plan.longest import strand_groups
from companion.core.plan.plan import Cut, ExtraCord, OtherCount, Plan, PlannedStrand, Warning
from companion.core.plan.strand_figures import with_cut, with_elements, with_steps, with_strands
from companion.core.plan.uncertainty.covariance import CovarianceModel, Spread
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import KNOT_KINDS, MOST_ELEMENTS, Design

TOLD_AS = 2  # how the steps of new plans are told


class CannotPlan(ValueError):
    """A design that can't be made as it is; the text is a sentence for the maker."""


# What only the elements of a strand, its steps and its cut bring.
NOT_KNOWN_YET: dict[str, Any] = {
    "elements": (),
    "steps": (),
    "beads": (),
    "knots": (),
    "strand_length_mm": 0.0,
    "take_up_mm": 0.0,
    "margin_mm": 0.0,
    "cut_mm": 0.0,
    "run_out_risk": 0.0,
    "need_sd_mm": 0.0,
    "need_degrees": 0.0,
}


def compile_plan(
    design: Design, card: CardFigures | None = None, assumptions: Assumptions = USUAL, risk: float | None = None
) -> Plan:
    """The whole plan of a design.

    `card`: the cord card it names, if there is one; `risk`: the accepted chance of running out, 0 to 1 (none: the
    usual one). Raises CannotPlan where the design comes to too many elements or can't be worked as it says.
    """
    cord = cord_of(design.cord, card, assumptions)
    measure = Measure(design, cord)
    fit = choose_fit(measure)
    count = fit or 1
    if measure.elements(count) > MOST_ELEMENTS:
        raise CannotPlan(f"This design comes to more than {MOST_ELEMENTS} beads, knots and spaces.")
    entries = entries_of(design, cord, count)
    model = CovarianceModel.of(cord, design.beads, [entry.elements for entry in entries], assumptions)
    plan = _without_strands(design, cord, assumptions.run_out_risk if risk is None else risk)
    allowance_mm = working_allowance_mm(cord.needle, assumptions)
    cut = [_cut_entry(plan, entry, allowance_mm, model.need_spread(number)) for number, entry in enumerate(entries)]
    strands = [
        with_steps(plan, one, steps_before(entry, cut, number, design, cord), steps_after(entry, one, design))
        for number, (entry, one) in enumerate(zip(entries, cut, strict=True))
    ]
    plan = with_strands(replace(plan, fit=fit, fit_others=_other_counts(measure, fit)), strands, model)
    return replace(
        plan,
        cuts=_cuts(strands),
        warnings=_warnings(design, plan, card, entries, count),
        opened_mm=opened_mm(design, cord, plan.finished_length_mm),
    )


def _without_strands(design: Design, cord: Cord, risk: float) -> Plan:
    """All of a plan that the design says by itself."""
    return Plan(
        design=design.name,
        note=design.note,
        unit=design.unit,
        size=design.size,
        target_mm=None,
        tolerance_mm=design.size.tolerance_mm if design.size else None,
        finished_length_mm=0.0,
        finished_low95_mm=0.0,
        finished_high95_mm=0.0,
        fit=None,
        fit_others=(),
        cord=cord,
        beads=design.beads,
        strands=(),
        longest=(),
        cuts=(),
        extra_cords=_extra_cords(design, cord),
        warnings=(),
        risk=risk,
    )


def _cut_entry(plan: Plan, entry: Entry, allowance_mm: float, need: Spread) -> PlannedStrand:
    """An entry with its figures and its cut; its steps come later."""
    strand = with_elements(plan, _without_elements(entry, plan.cord, allowance_mm), entry.elements)
    margin = max(0.0, margin_mm(need.sd_mm, need.degrees, plan.risk))
    return with_cut(strand, strand.layers * (strand.need_mm + margin), margin, need)


def _without_elements(entry: Entry, cord: Cord, allowance_mm: float) -> PlannedStrand:
    """All of an entry that its ends say by themselves."""
    start, end = entry.start_figures, entry.end.figures
    at_start, at_end = entry.strand.start, entry.strand.end
    ends = {None: (at_start, at_end), "first": (at_end,), "second": (at_start,)}[entry.side]
    written = tuple(end.length_mm is not None for end in ends)
    return PlannedStrand(
        name=entry.name,
        label=entry.label,
        side=entry.side,
        layers=cord.layers,
        start_closure="" if entry.side else at_start.closure,
        end_closure=entry.end.closure.name,
        closure_length_mm=start.length_mm + end.length_mm,
        start_tail_mm=start.tail_mm,
        start_closure_cord_mm=start.cord_mm,
        end_closure_cord_mm=end.cord_mm,
        end_tail_mm=end.tail_mm,
        working_allowance_mm=allowance_mm,
        finding=at_end.finding or at_start.finding,
        finding_mm=at_start.size_mm if at_end.size_mm is None else at_end.size_mm,
        strung_all_first=strung_all_first(entry.strand, cord),
        lengths_written=written if any(written) else (),
        told_as=TOLD_AS,
        **NOT_KNOWN_YET,
    )


def _cuts(strands: Sequence[PlannedStrand]) -> tuple[Cut, ...]:
    cuts = []
    for group in strand_groups(strands):
        cut_mm = sum(strands[number].cut_mm for number in group)
        cuts.append(Cut(strands[group[0]].name, group, cut_mm, strands[group[0]].layers))
    return tuple(cuts)


def _extra_cords(design: Design, cord: Cord) -> tuple[ExtraCord, ...]:
    extra = []
    for strand in design.strands:
        closure = CLOSURES[strand.end.closure]
        apart_mm = closure.cord_apart_mm(Joint(cord, "mm"))
        if apart_mm:
            purpose = f"{closure.name} of {strand.name}" if strand.name else closure.name
            extra.append(ExtraCord(purpose, apart_mm))
    return tuple(extra)


def _other_counts(measure: Measure, fit: int | None) -> tuple[OtherCount, ...]:
    """One fewer and one more, where they can be."""
    if fit is None:
        return ()
    counts = [count for count in (fit - 1, fit + 1) if count >= 1 and measure.elements(count) <= MOST_ELEMENTS]
    return tuple(OtherCount(count, measure.finished_mm(count)) for count in counts)


def _warnings(
    design: Design, plan: Plan, card: CardFigures | None, entries: Sequence[Entry], count: int
) -> tuple[Warning, ...]:
    whole = [(entry.strand, entry.whole) for entry in entries if entry.side != "second"]
    counts = [dict(strand.knots) for strand in plan.strands]
    used = [kind for kind in KNOT_KINDS if any(knots[kind] for knots in counts)]
    endless = any(strand.end.closure == "endless" for strand in design.strands)
    return (
        *checks.estimate_warnings(plan.cord, used, design.cord.card),
        *checks.card_warnings(plan.cord, card),
        *checks.length_warnings(design, plan.target_mm, plan.finished_length_mm, endless),
        *checks.hole_warnings(design, plan.cord, whole),
        *checks.knot_warnings(design, plan.cord, [elements for _, elements in whole]),
        *closure_warnings(design, plan.cord, plan.finished_length_mm, count),
    )
