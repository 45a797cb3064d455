"""What a closure needs from a design: a wide enough bore, an opening that passes the hand, no knot beside a coil."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.closures.joint import Joint
from companion.core.closures.table import CLOSURES
from companion.core.cord.cord import Cord
from companion.core.cord.holes import roomy_hole_mm
from companion.core.plan.ends import outermost
from companion.core.plan.fit import body_to_pass
from companion.core.plan.layout import in_order
from companion.core.plan.plan import Warning
from companion.core.values.design import BeadRun, Design, Strand
from companion.core.values.measures.show_lengths import display_unit, show


def closure_warnings(design: Design, cord: Cord, finished_mm: float, count: int) -> tuple[Warning, ...]:
    """All of them, at that count for `fit`."""
    found: list[Warning] = []
    for strand in design.strands:
        found += _bore(strand, cord, design.unit)
        found += _coil(strand, count)
        found += _opening(strand, design, cord, finished_mm)
        found += _left_over(strand, count)
    return tuple(dict.fromkeys(found))


def opened_mm(design: Design, cord: Cord, finished_mm: float) -> float | None:
    """How long the piece is when it is opened wide, mm; None where nothing slides."""
    for strand in design.strands:
        tail_mm = strand.end.tail_mm
        closure = CLOSURES[strand.end.closure]
        if closure.name == "sliding knot":
            joint = Joint(cord, "mm")
            usual_mm = closure.end.figures(joint).tail_mm
            tail = Joint(cord, "mm", usual_mm if tail_mm is None else tail_mm)
            return finished_mm + closure.opens_mm(tail)
    return None


def _bore(strand: Strand, cord: Cord, unit: str) -> Iterator[Warning]:
    if strand.end.closure != "cord end and clasp":
        return
    for end in (strand.start, strand.end):
        least = roomy_hole_mm(cord.diameter_mm, cord.layers)
        if end.size_mm is not None and end.size_mm < least - 1e-9:
            bore = end.size_mm
            cords = "the cord" if cord.layers == 1 else f"{cord.layers} cords"
            text = f"The cord end's bore is {bore:.4g} mm; {cords} and the glue need about {least:.2f} mm."
            yield Warning("bore too small", text, "closure")


def _coil(strand: Strand, count: int) -> Iterator[Warning]:
    for end, backward in ((strand.start, False), (strand.end, True)):
        if end.closure == "French wire and clasp":
            lies = outermost(in_order(strand.layout, count, backward))
            if lies.knot_outside:
                text = "French wire lies against the outermost bead: leave out the knot between the two."
                yield Warning("knot beside the coil", text, "closure")
            if 0 < len(lies.keys) < 3:
                yield Warning("too few beads", "French wire is knotted beside three beads at each end.", "closure")


def _opening(strand: Strand, design: Design, cord: Cord, finished_mm: float) -> Iterator[Warning]:
    wide_mm = opened_mm(design, cord, finished_mm)
    if strand.end.closure != "sliding knot" or wide_mm is None:
        return
    body, least_mm = body_to_pass(design.size, finished_mm)
    if wide_mm < least_mm:
        unit = display_unit(design.unit)
        text = (
            f"Opened wide it measures about {show(wide_mm, unit)}, and may not pass over a large {body} "
            f"({show(least_mm, unit)} round): leave longer tails."
        )
        yield Warning("opens too little", text, "closure")


def _left_over(strand: Strand, count: int) -> Iterator[Warning]:
    """A knot after every so many beads, and beads left over at the end of it."""
    for item in strand.layout:
        if isinstance(item, BeadRun) and item.knot_every and item.count is None:
            over = count % item.knot_every
            if over:
                fewer, more = count - over, count - over + item.knot_every
                counts = f"{fewer} or {more}" if fewer else f"{more}"
                beads = "one bead is" if over == 1 else f"{over} beads are"
                text = (
                    f"With a knot after every {item.knot_every} beads, {beads} left over at the end of {count}: "
                    f"{counts} would come out even."
                )
                yield Warning("beads left over", text, "layout")
