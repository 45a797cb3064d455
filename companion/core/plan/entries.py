"""The entries of a plan: each strand, or each side of one worked from the middle, with its ends and their steps."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from companion.core.closures.joint import EndFigures, EndStep, Joint
from companion.core.cord.cord import Cord
from companion.core.plan.ends import (
    NO_END,
    StrandEnd,
    end_steps,
    own_beads,
    side_start_steps,
    start_steps,
    strand_end,
    stringing_order,
    strung_all_first,
)
from companion.core.plan.layout import expand
from companion.core.plan.plan import PlannedStrand, Side
from companion.core.values.design import BeadKind, Design, Element, Strand
from companion.core.values.measures.show_lengths import display_unit, rounded_up_mm


class Entry(Struct, frozen=True):
    """One entry before its numbers are known. `whole`: all elements of its strand, as it lies; `start` None: a side,
    which begins in the middle of its strand."""

    strand: Strand
    name: str
    label: str
    side: Side | None
    elements: tuple[Element, ...]
    whole: tuple[Element, ...]
    start: StrandEnd | None
    end: StrandEnd

    @property
    def start_figures(self) -> EndFigures:
        """What the start adds, needs and leaves; nothing in the middle of a strand."""
        return self.start.figures if self.start else NO_END


def entries_of(design: Design, cord: Cord, count: int) -> list[Entry]:
    """All entries of a design, with that count for every `fit`."""
    beads = {kind.key: kind for kind in design.beads}
    entries = []
    for strand in design.strands:
        name = strand.name or "strand"
        elements = tuple(expand(strand.layout, count))
        start, end = _ends(strand, elements, beads, cord, design.unit)
        if strand.work == "along":
            entries.append(Entry(strand, name, name, None, elements, elements, start, end))
            continue
        half = len(elements) // 2
        prefix = f"{strand.name}/" if strand.name else ""
        first, second = elements[half:], tuple(reversed(elements[:half]))
        entries.append(Entry(strand, name, f"{prefix}first", "first", first, elements, None, end))
        entries.append(Entry(strand, name, f"{prefix}second", "second", second, elements, None, start))
    return entries


def _ends(
    strand: Strand, elements: Sequence[Element], beads: dict[str, BeadKind], cord: Cord, unit: str
) -> tuple[StrandEnd, StrandEnd]:
    shown = display_unit(unit)
    start = strand_end(strand, True, elements, beads, cord, shown)
    return start, strand_end(strand, False, reversed(elements), beads, cord, shown)


def steps_before(
    entry: Entry, planned: Sequence[PlannedStrand], number: int, design: Design, cord: Cord
) -> tuple[EndStep, ...]:
    """The steps that begin an entry. `planned`: all entries with their cuts; `number`: this one's place."""
    name = entry.strand.name if len(design.strands) > 1 else ""
    mine = planned[number]
    on = own_beads(mine.start_closure, at_start=True)
    beads = {kind.key: kind for kind in design.beads}
    strung = stringing_order(entry.elements, beads, on) if strung_all_first(entry.strand, cord) else ()
    if entry.start is None:
        sides = [other for other in planned if other.name == mine.name]
        whole_mm = sum(side.cut_mm for side in sides)
        more_mm = rounded_up_mm(whole_mm, entry.end.joint.unit) - whole_mm  # each side has half of it
        layer_mm = (mine.cut_mm + more_mm / len(sides)) / mine.layers
        return side_start_steps(entry.side or "first", entry.end.joint, whole_mm, name, layer_mm, strung)
    apart_mm = entry.end.closure.cord_apart_mm(entry.end.joint)
    return start_steps(entry.start, mine.cut_mm, name, apart_mm, strung, later=number > 0)


def steps_after(entry: Entry, planned: PlannedStrand, design: Design) -> tuple[EndStep, ...]:
    """The steps that end an entry. `planned`: it with its length."""
    return end_steps(entry.end, entry.side, _end_joint(entry, planned, design), planned.strung_all_first)


def _end_joint(entry: Entry, planned: PlannedStrand, design: Design) -> Joint:
    """What the sentences of an entry's end depend on: its own, and what only the whole design knows."""
    joint = replace(entry.end.joint, closed_mm=planned.strand_length_mm + planned.closure_length_mm)
    shared = len(design.strands) > 1 and all(s.end.closure == entry.end.closure.name for s in design.strands)
    if not shared or entry.end.closure.both_ends:
        return joint
    number = next(n for n, strand in enumerate(design.strands, start=1) if strand is entry.strand)
    return replace(joint, strand=number, strands=len(design.strands))
