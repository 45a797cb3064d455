"""From a design to a compiled plan. Pure: the same design gives the same plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from companion.core.closures.joint import EndFigures, EndStep, Joint
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import FIRM, CardFigures, Cord, cord_of
from companion.core.plan import warnings as checks
from companion.core.plan.closure_warnings import closure_warnings, opened_mm
from companion.core.plan.covariance import Model, Spread
from companion.core.plan.cut import margin_mm, run_out_risk, working_allowance_mm
from companion.core.plan.ends import (
    NO_END,
    StrandEnd,
    end_steps,
    side_start_steps,
    start_steps,
    strand_end,
    strung_all_first,
)
from companion.core.plan.fit import Measure, choose_fit
from companion.core.plan.layout import bare_mm, bead_counts, expand, knot_counts
from companion.core.plan.longest import longest_entries, strand_groups
from companion.core.plan.plan import Cut, ExtraCord, OtherCount, Plan, PlannedStrand, Side, Warning
from companion.core.plan.steps import Ends, steps_of
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import (
    KNOT_KINDS,
    MOST_ELEMENTS,
    Bead,
    BeadKind,
    Design,
    Element,
    End,
    Knot,
    KnotKind,
    Strand,
)
from companion.core.values.expected import Expected
from companion.core.values.show_lengths import DisplayUnit, display_unit


class CannotPlan(ValueError):
    """A design that can't be made as it is; the text is a sentence for the maker."""


@dataclass(frozen=True, slots=True)
class _Entry:
    """One entry before its numbers are known."""

    strand: Strand
    name: str
    label: str
    side: Side | None
    elements: tuple[Element, ...]
    whole: tuple[Element, ...]  # of the strand, as it lies


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
    entries = _entries(design, count)
    model = Model.of(cord, design.beads, [entry.elements for entry in entries], assumptions)
    risk = assumptions.run_out_risk if risk is None else risk
    needle = working_allowance_mm(cord.needle, assumptions)
    planned = _planned_entries(entries, design, cord, model, needle, risk)
    longest = longest_entries(planned)
    closure_mm = sum(planned[number].closure_length_mm for number in longest)
    finished_mm = sum(planned[number].strand_length_mm for number in longest) + closure_mm
    band = Expected(finished_mm, model.strand_sd_mm(longest))
    target_mm = measure.target_mm(count)
    return Plan(
        design=design.name,
        note=design.note,
        unit=design.unit,
        size=design.size,
        target_mm=target_mm,
        tolerance_mm=design.size.tolerance_mm if design.size else None,
        finished_length_mm=finished_mm,
        finished_low95_mm=band.low95_mm,
        finished_high95_mm=band.high95_mm,
        fit=fit,
        fit_others=_other_counts(measure, fit),
        cord=cord,
        beads=design.beads,
        strands=tuple(planned),
        longest=longest,
        cuts=_cuts(design, planned),
        extra_cords=_extra_cords(design, cord),
        warnings=_warnings(design, cord, card, entries, target_mm, finished_mm, count),
        opened_mm=opened_mm(design, cord, finished_mm),
        risk=risk,
    )


def _entries(design: Design, count: int) -> list[_Entry]:
    entries = []
    for strand in design.strands:
        name = strand.name or "strand"
        elements = tuple(expand(strand.layout, count))
        if strand.work == "along":
            entries.append(_Entry(strand, name, name, None, elements, elements))
            continue
        half = len(elements) // 2
        prefix = f"{strand.name}/" if strand.name else ""
        entries.append(_Entry(strand, name, f"{prefix}first", "first", elements[half:], elements))
        entries.append(_Entry(strand, name, f"{prefix}second", "second", tuple(reversed(elements[:half])), elements))
    return entries


@dataclass(frozen=True, slots=True)
class _Sized:
    """One entry with its numbers, before its steps are written. Lengths in mm, cord of each layer."""

    entry: _Entry
    start: StrandEnd | None  # None: a side, which begins in the middle
    end: StrandEnd
    length_mm: float
    take_up_mm: float
    margin_mm: float
    spread: Spread
    layer_mm: float  # what is cut of each layer

    @property
    def start_figures(self) -> EndFigures:
        """What the start adds, needs and leaves."""
        return self.start.figures if self.start else NO_END


def _planned_entries(
    entries: Sequence[_Entry], design: Design, cord: Cord, model: Model, allowance_mm: float, risk: float
) -> list[PlannedStrand]:
    sized = [
        _sized(entry, design, cord, allowance_mm, model.need_spread(number), risk)
        for number, entry in enumerate(entries)
    ]
    return [_planned_entry(one, sized, design, cord, allowance_mm) for one in sized]


def _sized(entry: _Entry, design: Design, cord: Cord, allowance_mm: float, spread: Spread, risk: float) -> _Sized:
    total = Counter(entry.elements)
    kinds = {kind.key: kind for kind in design.beads}
    knots = knot_counts(total)
    length_mm = sum(count * kinds[key].length_mm for key, count in bead_counts(total).items()) + bare_mm(total)
    length_mm += sum(knots[kind] * cord.knot(kind).length_mm for kind in KNOT_KINDS)
    take_up_mm = sum(knots[kind] * cord.knot(kind).take_up_mm for kind in KNOT_KINDS)
    start, end = _ends(entry, kinds, cord, display_unit(design.unit))
    margin = max(0.0, margin_mm(spread.sd_mm, spread.degrees, risk))
    first = start.figures if start else NO_END
    needs_mm = first.tail_mm + first.cord_mm + length_mm + take_up_mm + end.figures.cord_mm + end.figures.tail_mm
    return _Sized(entry, start, end, length_mm, take_up_mm, margin, spread, needs_mm + allowance_mm + margin)


def _ends(
    entry: _Entry, kinds: dict[str, BeadKind], cord: Cord, unit: DisplayUnit
) -> tuple[StrandEnd | None, StrandEnd]:
    """The ends of an entry. A side starts in the middle, where nothing is added; the second one ends at the start."""
    strand, whole = entry.strand, entry.whole
    start = strand_end(strand, True, whole, kinds, cord, unit)
    if entry.side == "second":
        return None, start
    return None if entry.side else start, strand_end(strand, False, reversed(whole), kinds, cord, unit)


def _planned_entry(
    one: _Sized, sized: Sequence[_Sized], design: Design, cord: Cord, allowance_mm: float
) -> PlannedStrand:
    entry, start, end = one.entry, one.start_figures, one.end.figures
    total = Counter(entry.elements)
    kinds = {kind.key: kind for kind in design.beads}
    ends = Ends(
        start.tail_mm,
        start.cord_mm,
        end.cord_mm,
        end.tail_mm,
        _start_steps(one, sized, design, cord),
        end_steps(one.end, entry.side, _end_joint(one, design)),
        already_on=one.start.half.end_beads if one.start and one.start.half.own_knots else 0,
        knotted_later=one.end.half.end_beads if one.end.half.own_knots else 0,
    )
    first, last = (entry.strand.start, entry.strand.end) if entry.side != "second" else (End(), entry.strand.start)
    strand = PlannedStrand(
        name=entry.name,
        label=entry.label,
        side=entry.side,
        layers=cord.layers,
        start_closure="" if entry.side else entry.strand.start.closure,
        end_closure=one.end.closure.name,
        elements=entry.elements,
        steps=steps_of(entry.elements, ends, one.layer_mm, kinds, cord, design.unit),
        beads=tuple(bead_counts(total).items()),
        knots=tuple(knot_counts(total).items()),
        strand_length_mm=one.length_mm,
        closure_length_mm=start.length_mm + end.length_mm,
        take_up_mm=one.take_up_mm,
        start_tail_mm=start.tail_mm,
        start_closure_cord_mm=start.cord_mm,
        end_closure_cord_mm=end.cord_mm,
        end_tail_mm=end.tail_mm,
        working_allowance_mm=allowance_mm,
        margin_mm=one.margin_mm,
        cut_mm=cord.layers * one.layer_mm,
        run_out_risk=0.0,
        need_sd_mm=one.spread.sd_mm,
        need_degrees=min(one.spread.degrees, FIRM),
        finding=last.finding or first.finding,
        finding_mm=first.size_mm if last.size_mm is None else last.size_mm,
        strung_all_first=strung_all_first(entry.strand, cord),
    )
    return replace(strand, run_out_risk=run_out_risk(strand, one.layer_mm))


def _end_joint(one: _Sized, design: Design) -> Joint:
    """What the sentences of an entry's end depend on: its own, and what only the whole design knows."""
    closed_mm = one.length_mm + one.start_figures.length_mm + one.end.figures.length_mm
    joint = replace(one.end.joint, closed_mm=closed_mm)
    if not joint.finding:
        joint = replace(joint, finding=one.entry.strand.start.finding)
    if joint.size_mm is None:
        joint = replace(joint, size_mm=one.entry.strand.start.size_mm)
    shared = len(design.strands) > 1 and all(s.end.closure == one.end.closure.name for s in design.strands)
    if not shared or one.end.closure.both_ends:
        return joint
    number = next(n for n, strand in enumerate(design.strands, start=1) if strand is one.entry.strand)
    return replace(joint, strand=number, strands=len(design.strands))


def _start_steps(one: _Sized, sized: Sequence[_Sized], design: Design, cord: Cord) -> tuple[EndStep, ...]:
    entry = one.entry
    name = entry.strand.name if len(design.strands) > 1 else ""
    if one.start is None:
        whole_mm = cord.layers * sum(other.layer_mm for other in sized if other.entry.strand is entry.strand)
        return side_start_steps(entry.side or "first", one.end.joint, whole_mm, name, one.layer_mm)
    all_first = strung_all_first(entry.strand, cord)
    beads = sum(isinstance(element, Bead) for element in entry.elements)
    apart_mm = one.end.closure.cord_apart_mm(one.end.joint)
    return start_steps(one.start, cord.layers * one.layer_mm, name, apart_mm, all_first and beads > 0, beads)


def _cuts(design: Design, planned: Sequence[PlannedStrand]) -> tuple[Cut, ...]:
    cuts = []
    for group in strand_groups(planned):
        cut_mm = sum(planned[number].cut_mm for number in group)
        cuts.append(Cut(planned[group[0]].name, group, cut_mm, planned[group[0]].layers))
    return tuple(cuts)


def _extra_cords(design: Design, cord: Cord) -> tuple[ExtraCord, ...]:
    extra = []
    for strand in design.strands:
        closure = CLOSURES[strand.end.closure]
        apart_mm = closure.cord_apart_mm(Joint(cord, display_unit(design.unit)))
        if apart_mm:
            purpose = f"{closure.name} of {strand.name}" if strand.name else closure.name
            extra.append(ExtraCord(purpose, apart_mm))
    return tuple(extra)


def _other_counts(measure: Measure, fit: int | None) -> tuple[OtherCount, ...]:
    if fit is None:
        return ()
    return tuple(
        OtherCount(count, measure.finished_mm(count)) for count in (fit - 1, fit + 1) if _possible(measure, count)
    )


def _possible(measure: Measure, count: int) -> bool:
    return count >= 1 and measure.elements(count) <= MOST_ELEMENTS


def _warnings(
    design: Design,
    cord: Cord,
    card: CardFigures | None,
    entries: Sequence[_Entry],
    target_mm: float | None,
    finished_mm: float,
    count: int,
) -> tuple[Warning, ...]:
    whole = _whole_strands(entries)
    used: list[KnotKind] = [k for k in KNOT_KINDS if any(Knot(k) in set(elements) for _, elements in whole)]
    endless = any(strand.end.closure == "endless" for strand in design.strands)
    return (
        *checks.estimate_warnings(cord, used, design.cord.card),
        *checks.card_warnings(cord, card),
        *checks.length_warnings(design, target_mm, finished_mm, endless),
        *checks.hole_warnings(design, cord, whole),
        *checks.knot_warnings(design, cord, [elements for _, elements in whole]),
        *closure_warnings(design, cord, finished_mm, count),
    )


def _whole_strands(entries: Sequence[_Entry]) -> list[tuple[Strand, tuple[Element, ...]]]:
    """Each strand with its elements as it lies: the two sides of one worked from the middle put together again."""
    whole: list[tuple[Strand, tuple[Element, ...]]] = []
    for entry in entries:
        if entry.side == "second":
            strand, first = whole.pop()
            whole.append((strand, (*reversed(entry.elements), *first)))
        else:
            whole.append((entry.strand, entry.elements))
    return whole
