"""What a closure needs from a design: a wide enough bore, an opening that passes the hand, no knot beside a coil, room
for a bar."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.closures.joint import Joint
from companion.core.closures.table import CLOSURES
from companion.core.closures.toggle import SMALL_SHARE, USUAL_BAR_MM, bar_room_mm, is_toggle
from companion.core.cord.cord import Cord
from companion.core.cord.holes import roomy_hole_mm
from companion.core.plan.ends import outermost
from companion.core.plan.fit import body_to_pass
from companion.core.plan.layout import in_order
from companion.core.plan.plan import Warning, element_mm
from companion.core.values.design import Bead, BeadKind, BeadRun, Design, Strand
from companion.core.values.measures.show_lengths import display_unit, show


def closure_warnings(design: Design, cord: Cord, finished_mm: float, count: int) -> tuple[Warning, ...]:
    """All of them, at that count for `fit`."""
    found: list[Warning] = []
    for strand in design.strands:
        found += _bore(strand, cord, design.unit)
        found += _coil(strand, count)
        found += _opening(strand, design, cord, finished_mm)
        found += _left_over(strand, count)
        found += _bar(strand, design, cord, count)
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


# What a closure leaves between the bar and the last bead, mm: its crimp, its loop of coil, its cup. Where the clasp is
# knotted on, the step itself leaves all the room. Common practice, no source.
_BESIDE_BAR_MM = {"bead tip and clasp": 6.0, "French wire and clasp": 4.5, "crimp and clasp": 4.0}


def _bar(strand: Strand, design: Design, cord: Cord, count: int) -> Iterator[Warning]:
    """A toggle's bar that beads beside it would keep from passing its ring."""
    along = strand.work == "along"
    end, other = (strand.end, strand.start) if along else (strand.start, strand.end)  # the bar comes last
    bare_mm = _BESIDE_BAR_MM.get(end.closure)
    if bare_mm is None or not is_toggle(end.finding or other.finding):
        return
    bar_mm = other.size_mm if end.size_mm is None else end.size_mm
    small_mm = SMALL_SHARE * (bar_mm or USUAL_BAR_MM)
    wide = _too_wide(strand, design, cord, count, bar_room_mm(bar_mm) - bare_mm, small_mm)
    if wide:
        room = show(bar_room_mm(bar_mm), display_unit(design.unit))
        text = (
            f"To pass its ring the toggle's bar lies along the last {room} of the strand, and {wide.name} "
            f"({wide.diameter_mm:.4g} mm across) is too wide to pass beside it. String small beads there, up to "
            f"{small_mm:.0f} mm across, or hang the bar on two or three links of chain, or choose the closure knotted "
            "to the clasp, which leaves it bare cord."
        )
        yield Warning("bar has no room", text, "closure")


def _too_wide(
    strand: Strand, design: Design, cord: Cord, count: int, room_mm: float, small_mm: float
) -> BeadKind | None:
    """The first bead wider than that on the last `room_mm` of the strand, counted from the bar."""
    kinds = {kind.key: kind for kind in design.beads}
    for element in in_order(strand.layout, count, backward=strand.work == "along"):
        if room_mm <= 0:
            return None
        if isinstance(element, Bead) and kinds[element.key].diameter_mm > small_mm:
            return kinds[element.key]
        room_mm -= element_mm(element, kinds, cord)
    return None
