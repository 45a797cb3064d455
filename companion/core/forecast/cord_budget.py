"""What cord an entry really has, and what it still needs at each step: per layer, mm."""

from __future__ import annotations

from companion.core.journal.events import Measured
from companion.core.journal.piece import Join, Piece
from companion.core.plan.cut import share_a_layer_mm, told_cut_mm
from companion.core.plan.plan import Plan


def free_at_start_mm(plan: Plan, piece: Piece, entry: int, reading: Measured | None = None) -> float:
    """How long one layer was when the entry was begun, mm, with all cord that was joined on since.

    A free-cord reading taken before its first bead or knot says it best; without one the cut that the maker entered;
    without that the cut that she is told. `reading`: count only cord that was joined on before this reading.
    """
    return _first_mm(plan, piece, entry) + sum(
        join.added_mm
        for join in piece.joins
        if plan.place(max(1, min(join.step, plan.total_steps)))[0] == entry
        and (reading is None or _joined_before(join, reading))
    )


def _joined_before(join: Join, reading: Measured) -> bool:
    return reading.step > join.step or (reading.step == join.step and reading not in join.before)


def _first_mm(plan: Plan, piece: Piece, entry: int) -> float:
    readings = [reading for reading in piece.readings if reading.kind == "free" and _at_start(plan, reading, entry)]
    if readings:
        number = plan.place(readings[-1].step)[1] if readings[-1].step else 0
        used_mm = plan.strands[entry].steps[number - 1].cord_used_mm if number else 0.0
        return readings[-1].length_mm + used_mm
    cut = next(number for number, cord in enumerate(plan.cuts) if entry in cord.entries)
    real_mm = piece.cut_mm(cut)
    return share_a_layer_mm(plan, cut, entry, told_cut_mm(plan, cut) if real_mm is None else real_mm)


def _at_start(plan: Plan, reading: Measured, entry: int) -> bool:
    """Whether a reading was taken in that entry before its first element."""
    if reading.step == 0:
        return entry == 0
    place, number = plan.place(reading.step)
    return place == entry and plan.strands[entry].steps[number - 1].elements == 0


def fixed_mm(plan: Plan, entry: int, number: int) -> float:
    """Cord that tails and closures (not knots) have used after step `number` of an entry, mm a layer; 0: before the
    first step."""
    strand = plan.strands[entry]
    if number == 0:
        return 0.0
    used_mm = strand.start_tail_mm + strand.start_closure_cord_mm
    return used_mm + strand.end_closure_cord_mm if number == len(strand.steps) else used_mm


def needed_mm(plan: Plan, entry: int, number: int) -> float:
    """Free cord that must be left after step `number` (from 1), mm a layer: enough to hold and tie with, and after the
    last step the tail as well."""
    strand = plan.strands[entry]
    if number == len(strand.steps):
        return strand.end_tail_mm + strand.working_allowance_mm
    return strand.working_allowance_mm


def closing_mm(plan: Plan, entry: int) -> float:
    """Free cord that must be left after the last knot of an entry, mm a layer: to hold, to close with, and the tail."""
    strand = plan.strands[entry]
    return strand.end_closure_cord_mm + strand.end_tail_mm + strand.working_allowance_mm


def closing_step(plan: Plan, entry: int) -> int:
    """The last step of an entry that takes cord: what comes after it is glue, snips and pliers."""
    steps = plan.strands[entry].steps
    closes = (step.number for step in steps if step.closes)
    trims = (step.number for step in steps if step.trims)  # of a piece begun before steps said whether they close
    return next(closes, None) or next(trims, len(steps))


def last_string_step(plan: Plan, entry: int) -> int:
    """The step of an entry that ties its last knot: the steps of the closure come after it. 0 where there is none."""
    return max((step.number for step in plan.strands[entry].steps if step.kind == "string"), default=0)
