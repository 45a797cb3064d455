"""When the ruler is worth laying on again: soon after the first knots, rarer while readings agree."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from companion.core.assumptions import Assumptions
from companion.core.events import Piece
from companion.core.plan import Plan

AGREES_WITHIN = 1.0  # standard deviations of what was foretold; our own choice
WIDER, MOST_SHARE = 1.5, 1 / 3


def next_reading(
    plan: Plan, piece: Piece, surprises: Sequence[tuple[int, float]], assumptions: Assumptions
) -> int | None:
    """The piece's step after which to measure next, None once nothing more can be put right.

    At first after 15 knots or a quarter of the entry, whichever is less, but never fewer than 3; while readings agree
    with what was foretold half as far again each time, up to a third of the entry; after a surprise as soon as at
    first. The last reading is before the end is made. `surprises`: of each strand reading the entry (from 0) and how
    far off it was, in standard deviations, in the order they were taken; only the entry's own count.
    """
    if piece.done >= plan.total_steps:
        return None
    entry, number = plan.place(piece.done + 1)
    strand = plan.strands[entry]
    stops = [step.number for step in strand.steps if step.kind == "string"]
    if not stops or number > stops[-1]:
        return None
    begun, before = plan.piece_step(entry, 0), stops[0] - 1
    taken = [r.step - begun for r in piece.readings if r.kind == "strand" and r.step > begun + before]
    every = _interval(len(stops), [off for place, off in surprises if place == entry], assumptions)
    last = max(taken, default=before)
    due = next((stop for stop in stops if stop - last >= every), stops[-1])
    return begun + due


def _interval(string_steps: int, surprises: Sequence[float], assumptions: Assumptions) -> int:
    """String steps until the next reading: nearly all of them tie a knot, and a strand without knots has steps too."""
    share = ceil(string_steps * assumptions.reading_every_share)
    every = float(max(assumptions.reading_least_knots, min(assumptions.reading_every_knots, share)))
    first = every
    for surprise in surprises:
        every = min(every * WIDER, max(first, string_steps * MOST_SHARE)) if abs(surprise) <= AGREES_WITHIN else first
    return max(assumptions.reading_least_knots, round(every))
