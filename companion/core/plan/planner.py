"""From a design to a compiled plan. Pure: the same design gives the same plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from companion.core.cord.cord import FIRM, CardFigures, Cord, cord_of
from companion.core.plan import warnings as checks
from companion.core.plan.closures import CLOSURES, first_side_steps, second_side_steps
from companion.core.plan.covariance import Model
from companion.core.plan.cut import margin_mm, run_out_risk, working_allowance_mm
from companion.core.plan.fit import Measure, choose_fit
from companion.core.plan.layout import bare_mm, bead_counts, expand, knot_counts
from companion.core.plan.longest import longest_entries, strand_groups
from companion.core.plan.plan import Cut, ExtraCord, OtherCount, Plan, PlannedStrand, Side, Warning
from companion.core.plan.steps import Ends, steps_of
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import KNOT_KINDS, MOST_ELEMENTS, Design, Element, End, Knot, KnotKind, Strand
from companion.core.values.expected import Expected
from companion.core.values.show_lengths import display_unit, show


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
        extra_cords=_extra_cords(design),
        warnings=_warnings(design, cord, card, entries, target_mm, finished_mm),
        risk=risk,
    )


def _entries(design: Design, count: int) -> list[_Entry]:
    entries = []
    for strand in design.strands:
        name = strand.name or "strand"
        elements = tuple(expand(strand.layout, count))
        if strand.work == "along":
            entries.append(_Entry(strand, name, name, None, elements))
            continue
        half = len(elements) // 2
        prefix = f"{strand.name}/" if strand.name else ""
        entries.append(_Entry(strand, name, f"{prefix}first", "first", elements[half:]))
        entries.append(_Entry(strand, name, f"{prefix}second", "second", tuple(reversed(elements[:half]))))
    return entries


def _planned_entries(
    entries: Sequence[_Entry], design: Design, cord: Cord, model: Model, allowance_mm: float, risk: float
) -> list[PlannedStrand]:
    spreads = [model.need_spread(number) for number in range(len(entries))]
    margins = [max(0.0, margin_mm(spread.sd_mm, spread.degrees, risk)) for spread in spreads]
    planned: list[PlannedStrand] = []
    for entry, spread, margin in zip(entries, spreads, margins, strict=True):
        planned.append(
            _planned_entry(entry, design, cord, allowance_mm, margin, spread.sd_mm, min(spread.degrees, FIRM))
        )
    return planned


def _planned_entry(
    entry: _Entry, design: Design, cord: Cord, allowance_mm: float, margin: float, sd_mm: float, degrees: float
) -> PlannedStrand:
    total = Counter(entry.elements)
    kinds = {kind.key: kind for kind in design.beads}
    beads, knots = bead_counts(total), knot_counts(total)
    length_mm = sum(count * kinds[key].length_mm for key, count in beads.items()) + bare_mm(total)
    length_mm += sum(knots[kind] * cord.knot(kind).length_mm for kind in KNOT_KINDS)
    take_up_mm = sum(knots[kind] * cord.knot(kind).take_up_mm for kind in KNOT_KINDS)
    start, end = _ends(entry)
    needs_mm = start.tail_mm + start.cord_mm + length_mm + take_up_mm + end.cord_mm + end.tail_mm + allowance_mm
    a_layer_mm = needs_mm + margin
    ends = Ends(
        start.tail_mm,
        start.cord_mm,
        end.cord_mm,
        end.tail_mm,
        _start_steps(entry, start.tail_mm, a_layer_mm, design.unit),
        _end_steps(entry, end.tail_mm, design.unit),
    )
    strand = PlannedStrand(
        name=entry.name,
        label=entry.label,
        side=entry.side,
        layers=cord.layers,
        start_closure="" if entry.side else entry.strand.start.closure,
        end_closure=entry.strand.start.closure if entry.side == "second" else entry.strand.end.closure,
        elements=entry.elements,
        steps=steps_of(entry.elements, ends, a_layer_mm, kinds, cord, design.unit),
        beads=tuple(beads.items()),
        knots=tuple(knots.items()),
        strand_length_mm=length_mm,
        closure_length_mm=start.length_mm + end.length_mm,
        take_up_mm=take_up_mm,
        start_tail_mm=start.tail_mm,
        start_closure_cord_mm=start.cord_mm,
        end_closure_cord_mm=end.cord_mm,
        end_tail_mm=end.tail_mm,
        working_allowance_mm=allowance_mm,
        margin_mm=margin,
        cut_mm=cord.layers * a_layer_mm,
        run_out_risk=0.0,
        need_sd_mm=sd_mm,
        need_degrees=degrees,
    )
    return replace(strand, run_out_risk=run_out_risk(strand, a_layer_mm))


@dataclass(frozen=True, slots=True)
class _EndFigures:
    length_mm: float
    cord_mm: float
    tail_mm: float


_NO_END = _EndFigures(0.0, 0.0, 0.0)


def _ends(entry: _Entry) -> tuple[_EndFigures, _EndFigures]:
    """The figures of an entry's start and end. A side starts in the middle, where nothing is added."""
    start = _figures(entry.strand.start, at_start=True)
    end = _figures(entry.strand.end, at_start=False)
    if entry.side is None:
        return start, end
    return _NO_END, end if entry.side == "first" else start


def _figures(end: End, at_start: bool) -> _EndFigures:
    closure = CLOSURES[end.closure]
    usual = closure.start if at_start else closure.end
    return _EndFigures(
        usual.length_mm if end.length_mm is None else end.length_mm,
        usual.cord_mm if end.cord_mm is None else end.cord_mm,
        usual.tail_mm if end.tail_mm is None else end.tail_mm,
    )


def _start_steps(entry: _Entry, tail_mm: float, a_layer_mm: float, unit: str) -> tuple[str, ...]:
    shown = display_unit(unit)
    if entry.side == "first":
        return (f"Mark the cord {show(a_layer_mm, shown)} from one end: the first side is worked from there.",)
    if entry.side == "second":
        return ("Turn the piece round: the second side begins at the mark, with the rest of the cord.",)
    steps = CLOSURES[entry.strand.start.closure].start.steps
    return tuple(text.format(tail=show(tail_mm, shown)) for text in steps)


def _end_steps(entry: _Entry, tail_mm: float, unit: str) -> tuple[str, ...]:
    tail = show(tail_mm, display_unit(unit))
    if entry.side == "first":
        steps = first_side_steps(CLOSURES[entry.strand.end.closure])
    elif entry.side == "second":
        steps = second_side_steps(CLOSURES[entry.strand.start.closure])
    else:
        steps = CLOSURES[entry.strand.end.closure].end.steps
    return tuple(text.format(tail=tail) for text in steps)


def _cuts(design: Design, planned: Sequence[PlannedStrand]) -> tuple[Cut, ...]:
    cuts = []
    for group in strand_groups(planned):
        cut_mm = sum(planned[number].cut_mm for number in group)
        cuts.append(Cut(planned[group[0]].name, group, cut_mm, planned[group[0]].layers))
    return tuple(cuts)


def _extra_cords(design: Design) -> tuple[ExtraCord, ...]:
    extra = []
    for strand in design.strands:
        closure = CLOSURES[strand.end.closure]
        if closure.cord_apart_mm:
            purpose = f"{closure.name} of {strand.name}" if strand.name else closure.name
            extra.append(ExtraCord(purpose, closure.cord_apart_mm))
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
