"""Whether the maker is asked to count beads, in which steps, and how many there should be. All that a screen or a
command says of it comes from here, so that they agree."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.forecast.outlook import Fault, Outlook
from companion.core.forecast.verdicts import MISCOUNT, TENSION
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan

# A count costs a minute, and one that finds nothing wrong costs trust: chosen on simulated pieces so that nothing is
# asked where nothing is wrong, or where only the tension changed (DEVELOPERS.md has the table); our own choice.
COUNTED_ABOVE = 0.08  # chance of a miscount from which beads are to be counted once something is off
BESIDE_TENSION = 0.7  # and the share that it must be of the chance that the tension changed


class Stretch(Struct, frozen=True):
    """The steps after `since` up to `step` of the piece, and how many beads the plan has in them."""

    since: int
    step: int
    beads: int


def stretch(plan: Plan, since: int, step: int) -> Stretch:
    """The steps after `since` up to `step`, with the beads that the plan has in them."""
    return Stretch(since, step, sum(len(_step_beads(plan, number)) for number in range(since + 1, step + 1)))


def miscount_chance(outlook: Outlook) -> float:
    """The chance that a bead was missed or is too many."""
    return sum(fault.p for fault in outlook.faults if fault.kind in MISCOUNT)


def suspected_miscount(plan: Plan, outlook: Outlook) -> Fault | None:
    """The miscount that the maker is to count for, None where there is none.

    That is the miscount of a verdict "recount"; else one that is likely enough by itself, likely enough beside a change
    of tension, and would explain what is off: the finished length, or a reading that is too much to be the ruler."""
    miscounts = [fault for fault in outlook.faults if fault.kind in MISCOUNT]
    if outlook.verdict == "recount":
        return miscounts[0] if miscounts else None
    if outlook.verdict == "measure again":
        return None
    signs = set[bool]()  # whether too much
    if outlook.verdict in ("watch", "off"):
        signs.add(_is_over(plan, outlook))
    signs.update(check.off_mm > 0 for check in outlook.checks if not check.is_usual)
    least = max(COUNTED_ABOVE, BESIDE_TENSION * _tension_chance(outlook))
    return next((one for one in miscounts if (one.kind == "bead too many") in signs and one.p > least), None)


def _tension_chance(outlook: Outlook) -> float:
    return sum(fault.p for fault in outlook.faults if fault.kind in TENSION)


def _is_over(plan: Plan, outlook: Outlook) -> bool:
    return plan.target_mm is not None and outlook.finished.mean_mm > plan.target_mm


def stretch_to_count(plan: Plan, piece: Piece, outlook: Outlook) -> Stretch:
    """The steps to count: where a bead is suspected to be missing or too many. Where none is, the steps since the last
    count that was right; if there are none since then, all from the start."""
    suspect = suspected_miscount(plan, outlook)
    if suspect:
        return suspected_stretch(plan, piece, outlook, suspect)
    since = max((one.step for one in piece.counted if one.beads == 0), default=0)
    return stretch(plan, since if since < piece.done else 0, piece.done)


def suspected_stretch(plan: Plan, piece: Piece, outlook: Outlook, suspect: Fault) -> Stretch:
    """The steps in which that miscount is suspected. If an earlier reading looked wrong in the same way and the beads
    were not counted since, its steps are counted too: one count then answers both. Not so for a verdict "recount",
    which knows where to look."""
    since, step = (plan.piece_step(suspect.entry, number) for number in (suspect.from_step - 1, suspect.to_step))
    earlier = () if outlook.verdict == "recount" else _unusual_stretches(plan, outlook, suspect)
    for first, last in earlier:
        if last <= since and not any(one.since <= first and last <= one.step for one in piece.counted):
            since = first
            break
    return stretch(plan, since, min(step, piece.done))


def _unusual_stretches(plan: Plan, outlook: Outlook, suspect: Fault) -> Iterator[tuple[int, int]]:
    """From the reading before to each that was too much to be the ruler, in the entry of that miscount and its way."""
    last = plan.piece_step(suspect.entry, 0)
    for check in outlook.checks:
        if plan.place(max(1, check.reading.step))[0] != suspect.entry:
            continue
        if not check.is_usual and (check.off_mm > 0) == (suspect.kind == "bead too many"):
            yield last, check.reading.step
        last = check.reading.step


def _step_beads(plan: Plan, number: int) -> tuple[str, ...]:
    entry, own = plan.place(number)
    return plan.strands[entry].steps[own - 1].beads
