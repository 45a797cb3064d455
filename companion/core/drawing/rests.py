"""What is left of a strand, drawn as each way out would leave it: all at one scale, so that they can be compared."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from companion.core.drawing.pixels import RING, Palette, Pixels, paint_row
from companion.core.drawing.strand import DrawnStrand, drawn_strand, largest_scale, least_scale
from companion.core.plan.plan import Plan
from companion.core.values.design import Element

LONGEST_BEAD, SHORTEST_BEAD = 9.0, 1.5  # pixels
NEARLY = 0.97  # of the room: parts are rounded to whole pixels
BEFORE = 3  # elements that are shown of what stays, before the first that differs


def rest_pictures(
    plan: Plan, entry: int, rests: Sequence[Sequence[Element]], room: int, palette: Palette
) -> tuple[Pixels, ...]:
    """The first of these is as it is planned now. Of each so much as has room in a row of so many pixels, from the same
    place on: where all of it has no room at the least scale, from a little before where any of them differs."""
    scale = largest_scale(plan, entry, LONGEST_BEAD)
    longest = max(_width(_drawn(plan, entry, rest, scale)) for rest in rests)
    wanted = scale * min(1.0, NEARLY * room / longest)
    scale = max(wanted, min(scale, least_scale(plan, entry, SHORTEST_BEAD)))
    drawn = [_drawn(plan, entry, rest, scale) for rest in rests]
    first = 0 if max(map(_width, drawn)) <= room else max(0, _alike(rests) - BEFORE)
    return tuple(_painted(strand, first, room, palette) for strand in drawn)


def _width(strand: DrawnStrand) -> int:
    return strand.width + (strand.after.width if strand.after else 0) + 2 * RING


def _alike(rests: Sequence[Sequence[Element]]) -> int:
    """How many elements at the beginning are the same in all of them; 0 where they do not differ."""
    now, *others = rests
    differ = [
        next((place for place, (one, other) in enumerate(zip(now, rest, strict=False)) if one != other), len(now))
        for rest in others
        if tuple(rest) != tuple(now)
    ]
    return min(differ, default=0)


def _drawn(plan: Plan, entry: int, rest: Sequence[Element], scale: float) -> DrawnStrand:
    """The rest as a strand of its own, whose beginning is no end."""
    strand = replace(plan.strands[entry], elements=tuple(rest), start_closure="")
    return replace(drawn_strand(replace(plan, strands=(strand,)), 0, scale), before=None)


def _painted(strand: DrawnStrand, first: int, room: int, palette: Palette) -> Pixels:
    """As much of it as there is room for."""
    spare = room - 2 * RING
    end = strand.element_at(strand.begin(first) + spare)
    after = strand.after
    if end >= len(strand.order) and after and strand.width - strand.begin(first) + after.width > spare:
        strand = replace(strand, after=None)
    all_made = len(strand.order) + 1
    return paint_row(strand, (first, min(end, len(strand.order))), all_made, all_made, palette)
