"""The whole piece in one picture: closed where its beads are then large enough to be told apart, else in rows."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice
from math import inf

from msgspec import Struct
from msgspec.structs import replace

from companion.core.drawing.closed import EDGE, Closed, closed_piece, curve_in
from companion.core.drawing.links import Chain, chains_of
from companion.core.drawing.pixels import RING, Palette, Pixels, paint_row
from companion.core.drawing.strand import SMALLEST_SCALE, DrawnStrand, drawn_strand
from companion.core.picture.picture import made_in_picture
from companion.core.plan.plan import Plan

LEAST_BEAD = 2.2  # pixels: how long the beads of a closed piece are on average
MOST_LINKS = 2000  # of a piece that is drawn closed, or whose scale is sought out; a longer one is as small as can be
LARGEST_IN_ROWS = 2.0  # pixels per mm
_HALVINGS = 7


class InRows(Struct, frozen=True):
    """A piece in rows, one under another. `beads`: how many of its `all_beads` are to be seen."""

    pictures: tuple[Pixels, ...]
    beads: int
    all_beads: int


def closed_where_good(plan: Plan, width: int, height: int) -> Closed | None:
    """The piece closed in so many pixels; None where it never is, or where its beads would be too small."""
    if sum(len(strand.elements) for strand in plan.strands) > MOST_LINKS:
        return None
    chains = chains_of(plan)
    if not chains:
        return None
    longest = max(chains, key=lambda chain: chain.length_mm)
    if curve_in(width, height, EDGE).length / longest.length_mm * _mean_bead_mm(longest) < LEAST_BEAD:
        return None
    closed = closed_piece(chains, width, height)
    return closed if closed.pixels_per_mm * _mean_bead_mm(longest) >= LEAST_BEAD else None


def _mean_bead_mm(chain: Chain) -> float:
    lengths = [link.length_mm for link in chain.links if link.kind == "bead"]
    return sum(lengths) / len(lengths) if lengths else 0.0


def in_rows(plan: Plan, width: int, height: int, palette: Palette, steps_done: int | None = None) -> InRows:
    """The piece in rows of so many pixels, as large as there is room for; what has no room is left out. So many of its
    steps are done, None: all."""
    strands = _measured(plan, width - 2 * RING, height)
    pictures: list[Pixels] = []
    beads, used = 0, 0
    for entry, strand in enumerate(strands):
        made = made_in_picture(plan, entry, steps_done)
        for row in strand.rows(width - 2 * RING):
            picture = _without_rings(paint_row(strand, row, made, made, palette))
            used += len(picture.rows)
            if used > height:
                break
            pictures.append(picture)
            beads += sum(strand.part(element).kind == "bead" for element in range(*row))
    return InRows(tuple(pictures), beads, sum(count for strand in plan.strands for _, count in strand.beads))


def beads_on(plan: Plan, steps_done: int | None) -> float:
    """How many beads of a piece are on once so many of its steps are done; without end where all of it is."""
    if steps_done is None or steps_done >= plan.total_steps:
        return inf
    steps = (step for strand in plan.strands for step in strand.steps)
    return sum(len(step.beads) for step in islice(steps, steps_done))


def _measured(plan: Plan, room: int, height: int) -> Sequence[DrawnStrand]:
    """All entries at the largest scale at which their rows fit, the smallest where none does."""

    def at(scale: float) -> list[DrawnStrand]:
        return [drawn_strand(plan, entry, scale) for entry in range(len(plan.strands))]

    low, high = SMALLEST_SCALE, LARGEST_IN_ROWS
    found = at(low)
    if sum(len(strand.elements) for strand in plan.strands) > MOST_LINKS:
        return found
    for _ in range(_HALVINGS):
        middle = (low * high) ** 0.5
        tried = at(middle)
        if sum(len(strand.rows(room)) * _row_height(strand) for strand in tried) <= height:
            low, found = middle, tried
        else:
            high = middle
    return found


def _row_height(strand: DrawnStrand) -> int:
    """Pixels of a row, one left free below it."""
    return strand.height + 1


def _without_rings(picture: Pixels) -> Pixels:
    """A row without what is kept free for the rings of the present step, but for one line below it."""
    rows = picture.rows[RING:-RING]
    return Pixels(rows, tuple(replace(letter, row=letter.row - RING) for letter in picture.letters))
