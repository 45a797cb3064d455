"""Counting the beads of a stretch: which steps to count, how many there should be, and what the answer means."""

from __future__ import annotations

from msgspec import Struct

from companion.core.forecast.outlook import Outlook
from companion.core.forecast.verdicts import MISCOUNT
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan


class Stretch(Struct, frozen=True):
    """The steps after `since` up to `step` of the piece, and how many beads the plan has in them."""

    since: int
    step: int
    beads: int


def stretch(plan: Plan, since: int, step: int) -> Stretch:
    """Those steps, with their beads."""
    return Stretch(since, step, sum(len(_step_beads(plan, number)) for number in range(since + 1, step + 1)))


def stretch_to_count(plan: Plan, piece: Piece, outlook: Outlook) -> Stretch:
    """Where a bead is suspected to be missing or too many; else all that is made since the beads were last counted and
    right, or, where that is nothing, since the start."""
    suspect = next((fault for fault in outlook.faults if fault.kind in MISCOUNT), None)
    if suspect and outlook.verdict == "recount":
        since = plan.piece_step(suspect.entry, suspect.from_step - 1)
        return stretch(plan, since, min(piece.done, plan.piece_step(suspect.entry, suspect.to_step)))
    since = max((one.step for one in piece.counted if one.beads == 0), default=0)
    return stretch(plan, since if since < piece.done else 0, piece.done)


def _step_beads(plan: Plan, number: int) -> tuple[str, ...]:
    entry, own = plan.place(number)
    return plan.strands[entry].steps[own - 1].beads
