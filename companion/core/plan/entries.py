"""The entries of a plan: each strand, or each side of one worked from the middle, and what its ends take."""

from __future__ import annotations

from dataclasses import dataclass

from companion.core.plan.closures import CLOSURES, first_side_steps, second_side_steps
from companion.core.plan.layout import expand
from companion.core.plan.plan import Side
from companion.core.values.design import Design, Element, End, Strand
from companion.core.values.show_lengths import display_unit, show


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry before its numbers are known."""

    strand: Strand
    name: str
    label: str
    side: Side | None
    elements: tuple[Element, ...]


@dataclass(frozen=True, slots=True)
class EndFigures:
    """What one end of an entry adds to the finished length, takes of cord and leaves as tail, mm; cord per layer."""

    length_mm: float
    cord_mm: float
    tail_mm: float


_NO_END = EndFigures(0.0, 0.0, 0.0)


def entries_of(design: Design, count: int) -> list[Entry]:
    """All entries of a design, with that count for every `fit`."""
    entries = []
    for strand in design.strands:
        name = strand.name or "strand"
        elements = tuple(expand(strand.layout, count))
        if strand.work == "along":
            entries.append(Entry(strand, name, name, None, elements))
            continue
        half = len(elements) // 2
        prefix = f"{strand.name}/" if strand.name else ""
        entries.append(Entry(strand, name, f"{prefix}first", "first", elements[half:]))
        entries.append(Entry(strand, name, f"{prefix}second", "second", tuple(reversed(elements[:half]))))
    return entries


def end_figures(end: End, at_start: bool) -> EndFigures:
    """What an end of a strand takes: as the design says, else the closure's own figures."""
    closure = CLOSURES[end.closure]
    usual = closure.start if at_start else closure.end
    return EndFigures(
        usual.length_mm if end.length_mm is None else end.length_mm,
        usual.cord_mm if end.cord_mm is None else end.cord_mm,
        usual.tail_mm if end.tail_mm is None else end.tail_mm,
    )


def both_ends(entry: Entry) -> tuple[EndFigures, EndFigures]:
    """The figures of an entry's start and end. A side starts in the middle, where nothing is added."""
    start = end_figures(entry.strand.start, at_start=True)
    end = end_figures(entry.strand.end, at_start=False)
    if entry.side is None:
        return start, end
    return _NO_END, end if entry.side == "first" else start


def start_texts(entry: Entry, tail_mm: float, a_layer_mm: float, unit: str) -> tuple[str, ...]:
    """The steps that begin an entry, in words; `a_layer_mm`: how much of its cord each layer has."""
    if entry.side == "first":
        shown = show(a_layer_mm, display_unit(unit))
        return (f"Mark the cord {shown} from one end: the first side is worked from there.",)
    if entry.side == "second":
        return ("Turn the piece round: the second side begins at the mark, with the rest of the cord.",)
    return with_tail(CLOSURES[entry.strand.start.closure].start.steps, tail_mm, unit)


def end_texts(entry: Entry, tail_mm: float, unit: str) -> tuple[str, ...]:
    """The steps that end an entry, in words."""
    if entry.side == "first":
        steps = first_side_steps(CLOSURES[entry.strand.end.closure])
    elif entry.side == "second":
        steps = second_side_steps(CLOSURES[entry.strand.start.closure])
    else:
        steps = CLOSURES[entry.strand.end.closure].end.steps
    return with_tail(steps, tail_mm, unit)


def with_tail(steps: tuple[str, ...], tail_mm: float, unit: str) -> tuple[str, ...]:
    """A closure's steps with the tail that is really planned."""
    tail = show(tail_mm, display_unit(unit))
    return tuple(text.format(tail=tail) for text in steps)
