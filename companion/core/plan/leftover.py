"""The cord that is left at the end, measured before the tails are trimmed."""

from __future__ import annotations

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan


def trimming_step(plan: Plan) -> int | None:
    """The last step of the piece (from 1) that cuts tails off; None where none does."""
    entry = len(plan.strands) - 1
    trims = [step.number for step in plan.strands[entry].steps if step.trims]
    return plan.piece_step(entry, trims[-1]) if trims else None


def leftover_due(plan: Plan, piece: Piece) -> bool:
    """Whether the tails are trimmed next and the leftover cord has not been measured yet."""
    step = trimming_step(plan)
    if piece.state != "under way" or step is None or piece.done + 1 != step:
        return False
    return leftover_mm(plan, piece) is None


def leftover_mm(plan: Plan, piece: Piece) -> float | None:
    """What was left of one layer before the tails were trimmed, mm, as it was measured last; None where it was not.
    A tail that is measured after that is what the snips left."""
    step = trimming_step(plan)
    if step is None:
        return None
    found = [reading.length_mm for reading in piece.readings if reading.kind == "free" and reading.step == step - 1]
    return found[-1] if found else None


def tails_trimmed(plan: Plan, step: int) -> bool:
    """Whether the tails of the strand that is worked at are cut off by the end of that step of the piece, 0 for none:
    then nothing is left to be measured."""
    if step == 0:
        return False
    entry, number = plan.place(step)
    return any(one.trims and one.kind == "end" for one in plan.strands[entry].steps[:number])
