"""The screen ahead of the work, or behind it: where it belongs, and where the readings taken meanwhile do.

A step marked twice puts the screen a step ahead, there and in all that follows. So wherever beads were counted and
found missing, the screen is set back by as many from where the work is now; and what was read since belongs to the
steps that were really done. Where the fault may lie on either side of a reading, that reading says which is likelier.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import fsum, log

from companion.core.forecast.counting import Stretch
from companion.core.forecast.evidence import Evidence
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.observations import ruler_mm
from companion.core.journal.events import NOWHERE, Jumped, Measured
from companion.core.journal.fold import after
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan

MOST_PLACES = 12  # the latest; each is a forecast of its own
CLEARLY_MM = 1.5  # by so much a reading must fit better; our own choice


def screen_set(plan: Plan, piece: Piece, counted: Stretch, beads: int) -> Jumped | None:
    """The jump that sets the screen right where `counted` holds `beads` more than planned (below 0: fewer); None where
    no step ends there, or the fault can't be the screen's: another strand's beads, or a closure that is begun."""
    to = _step_with(plan, piece.done, beads)
    if beads == 0 or to is None or plan.place(counted.since + 1)[0] != plan.place(piece.done)[0]:
        return None
    found = [_jump(plan, piece, counted, beads, to, begins) for begins in _places(piece, counted)]
    if len(found) == 1:
        return found[0]
    forecaster = Forecaster(plan)

    def fits(jump: Jumped) -> tuple[int, float]:
        really = after(piece, jump)
        return len(really.readings), _fit(forecaster.estimator.evidence(really))

    return max(found, key=fits)


def _places(piece: Piece, counted: Stretch) -> Iterator[int]:
    """After which steps the screen may have gone wrong: readings from there on belong elsewhere."""
    inside = {reading.step for reading in piece.readings if counted.since < reading.step < counted.step}
    yield from (counted.since, *sorted(inside))[-MOST_PLACES:]


def _jump(plan: Plan, piece: Piece, counted: Stretch, beads: int, to: int, begins: int) -> Jumped:
    steps = {reading.step for reading in piece.readings} | {join.step for join in piece.joins}
    steps |= {step for one in piece.counted if one.since >= counted.step for step in (one.since, one.step)}
    moved = {step: _step_with(plan, step, beads) for step in sorted(steps) if begins < step <= piece.done}
    fits_nowhere = {r.step for r in piece.readings if _is_of_another_order(plan, counted, beads, r, moved.get(r.step))}
    until = _step_with(plan, counted.step, beads) or 0
    return Jumped(
        to,
        tuple((step, NOWHERE if really is None or step in fits_nowhere else really) for step, really in moved.items()),
        (counted.since, until) if counted.since < until <= to else None,
    )


def _is_of_another_order(plan: Plan, counted: Stretch, beads: int, reading: Measured, really: int | None) -> bool:
    """Whether a strand reading fits better with one step left out before it, and the rest strung as the screen says,
    than after the step where the count would put it. Beads that differ then lie in another order than planned."""
    if reading.kind != "strand" or really is None:
        return False
    entry = plan.place(reading.step)[0]
    here_mm, there_mm = _strand_mm(plan, reading.step), _strand_mm(plan, really)
    skipped = [step for step in range(counted.since + 1, counted.step + 1) if _is_skipped(plan, step, entry, beads)]
    sign = 1 if beads > 0 else -1
    others_mm = [here_mm + sign * (_strand_mm(plan, step) - _strand_mm(plan, step - 1)) for step in skipped]
    off_mm = min((abs(reading.length_mm - other_mm) for other_mm in others_mm), default=float("inf"))
    return off_mm + CLEARLY_MM < abs(reading.length_mm - there_mm)


def _is_skipped(plan: Plan, step: int, entry: int, beads: int) -> bool:
    """Whether that step alone would make the difference."""
    place, number = plan.place(step)
    one = plan.strands[entry].steps[number - 1] if place == entry else None
    return one is not None and one.kind == "string" and len(one.beads) == abs(beads)


def _strand_mm(plan: Plan, step: int) -> float:
    entry, number = plan.place(max(1, step))
    return ruler_mm(plan, entry, number)


def _step_with(plan: Plan, step: int, beads: int) -> int | None:
    """The step after which the strand has so many beads more (below 0: fewer) than after that one; None where no step
    of its entry ends there, or the closure is begun."""
    if step == 0:
        return None
    entry, number = plan.place(step)
    steps, missing = plan.strands[entry].steps, beads
    while missing < 0 and number > 0 and steps[number - 1].kind == "string":
        missing += len(steps[number - 1].beads)
        number -= 1
    while missing > 0 and number < len(steps) and steps[number].kind == "string":
        missing -= len(steps[number].beads)
        number += 1
    return plan.piece_step(entry, number) if missing == 0 else None


def _fit(evidence: Evidence) -> float:
    """How well the readings agree with one another if nothing is wrong: the log of their density, up to a constant."""
    spread = fsum(log(row[-1]) for row in evidence.factor.rows)
    return -fsum(off * off for off in evidence.innovation) / 2 - spread
