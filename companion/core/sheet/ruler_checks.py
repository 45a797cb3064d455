"""After which steps to measure on paper: where a screen would ask for it, were every reading as expected."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from companion.core.forecast.next_reading import next_reading
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import USUAL

_AS_EXPECTED = 0.0  # how far a reading is off, in standard deviations


def ruler_checks(plan: Plan, entry: int) -> tuple[int, ...]:
    """The piece's steps after which to measure an entry (from 0), the first one first. The last is before its closing:
    on paper nobody asks again."""
    strings = [step.number for step in plan.strands[entry].steps if step.kind == "string"]
    if not strings:
        return ()
    last = plan.piece_step(entry, strings[-1])
    return (*(step for step in _asked_for(plan, entry, strings) if step < last), last)


def _asked_for(plan: Plan, entry: int, strings: Sequence[int]) -> Iterator[int]:
    """`strings`: the entry's steps that string beads."""
    piece = Piece(plan.total_steps, plan.piece_step(entry, strings[0]))
    surprises: tuple[tuple[int, float], ...] = ()
    while (step := next_reading(plan, piece, surprises, USUAL)) is not None:
        yield step
        length_mm = plan.strands[entry].steps[plan.place(step)[1] - 1].strand_mm
        readings = (*piece.readings, Measured("strand", step, length_mm, ""))
        piece = replace(piece, done=step, readings=readings)
        surprises = (*surprises, (entry, _AS_EXPECTED))
