"""When to measure next: where a fault may have come unnoticed, or can soon no longer be put right."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from math import ceil

from msgspec import Struct

from companion.core.forecast.faults.segment import Segment
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan, Step
from companion.core.values.assumptions import Assumptions

AGREES_WITHIN = 1.0  # standard deviations of what was expected; our own choice
WIDER, MOST_SHARE = 1.5, 1 / 3
LONGEST_REPEAT = 12  # string steps that come again as a repeat; a longer one is no cheap thing to drop


class Hazard(Struct, frozen=True):
    """A fault that may come in a segment: the chance that it comes there and alone takes the piece out of its
    tolerance."""

    segment: Segment
    chance: float


def next_reading(
    plan: Plan,
    piece: Piece,
    surprises: Sequence[tuple[int, float]],
    assumptions: Assumptions,
    hazards: Sequence[Hazard] | None = None,
) -> int | None:
    """The piece's step after which to measure next, None once nothing more can be put right.

    The first reading of an entry is due after 15 knots or a quarter of the entry, whichever is less, but never after
    fewer than 3. A later one is due once the chance that a fault has come unnoticed since the last reading, and takes
    the piece out of its tolerance, passes a level. That level grows while readings agree with what was expected, and is
    low again after a surprise. Without `hazards` (no tolerance, or nothing read) the interval grows and shrinks in the
    same way. No interval is longer than a third of the entry. One reading falls before the last repeat, which can still
    be left out then; none comes within three knots of the one before.

    `surprises`: for each strand reading, in the order they were taken, its entry (from 0) and how far off it was, in
    standard deviations. Only those of the entry that is being made count.
    """
    entry, made = _entry_in_hand(plan, piece)
    stops = [step for step in plan.strands[entry].steps if step.kind == "string"]
    if not stops or made > stops[-1].number:
        return None
    begun, before = plan.piece_step(entry, 0), stops[0].number - 1
    taken = [r.step - begun for r in piece.readings if r.kind == "strand" and r.step > begun + before]
    last = max(taken, default=before)
    if taken and stops[-1].number - last < assumptions.reading_least_knots:
        return None
    agreed = [off for place, off in surprises if place == entry]
    if hazards is None or not taken:
        due = _on_the_beat(stops, last, agreed, assumptions)
    else:
        due = _by_chance(stops, last, agreed, [one for one in hazards if one.segment.entry == entry], assumptions)
    cheap = _before_the_last_repeat(stops)
    return begun + (cheap if taken and last + assumptions.reading_least_knots <= cheap < due else due)


def _entry_in_hand(plan: Plan, piece: Piece) -> tuple[int, int]:
    """The entry to be measured, and how many of its steps are made: the one that is being made; once its last knot is
    tied still the same, until its closure is begun."""
    if piece.done:
        entry, number = plan.place(piece.done)
        if plan.strands[entry].steps[number - 1].kind == "string" or number < len(plan.strands[entry].steps):
            return entry, number
    if piece.done < plan.total_steps:
        entry, number = plan.place(piece.done + 1)
        return entry, number - 1
    return plan.place(piece.done)


def _on_the_beat(stops: Sequence[Step], last: int, surprises: Sequence[float], assumptions: Assumptions) -> int:
    every = _interval(len(stops), surprises, assumptions)
    return next((stop.number for stop in stops if stop.number - last >= every), stops[-1].number)


def _by_chance(
    stops: Sequence[Step],
    last: int,
    surprises: Sequence[float],
    hazards: Sequence[Hazard],
    assumptions: Assumptions,
) -> int:
    agreeing = 0
    for surprise in surprises:
        agreeing = agreeing + 1 if abs(surprise) <= AGREES_WITHIN else 0
    level = assumptions.unseen_above * WIDER ** min(agreeing, 4)
    longest = max(_interval(len(stops), (), assumptions), len(stops) * MOST_SHARE)
    may = [stop for stop in stops if stop.number - last >= assumptions.reading_least_knots]
    soon = [stop for stop in may if stop.number - last < longest]
    # The chance only grows from stop to stop.
    place = bisect_right(soon, level, key=lambda stop: _unseen(hazards, stop.elements))
    return may[place].number if place < len(may) else stops[-1].number


def _unseen(hazards: Sequence[Hazard], elements: int) -> float:
    """The chance that a fault has come by then, spread evenly over the segment that each may come in."""
    return sum(
        one.chance * min(1.0, max(0.0, (elements - one.segment.first) / one.segment.elements))
        for one in hazards
        if one.segment.elements > 0
    )


def _before_the_last_repeat(stops: Sequence[Step]) -> int:
    """The last step after which a whole repeat is still to come: the shortest run of steps that the strand ends with
    twice. Without one, before its last step."""
    what = [(step.beads, step.knot) for step in stops]
    for size in range(1, min(LONGEST_REPEAT, len(what) // 2) + 1):
        if what[-size:] == what[-2 * size : -size]:
            return stops[-size].number - 1
    return stops[-1].number - 1


def _interval(string_steps: int, surprises: Sequence[float], assumptions: Assumptions) -> int:
    """String steps until the next reading: nearly all of them tie a knot, and a strand without knots has steps too."""
    share = ceil(string_steps * assumptions.reading_every_share)
    every = float(max(assumptions.reading_least_knots, min(assumptions.reading_every_knots, share)))
    first = every
    for surprise in surprises:
        every = min(every * WIDER, max(first, string_steps * MOST_SHARE)) if abs(surprise) <= AGREES_WITHIN else first
    return max(assumptions.reading_least_knots, round(every))
