"""The sample piece that shows a new maker round: what she is told to do, one thing after the other."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show

BEGUN, MEASURED, OFF = 10, 14, 19  # steps done: at the beginning, at the first reading, at the one that is off
Place = Literal["steps", "recap", "bench", "help", "elsewhere"]


class Seen(Struct, frozen=True):
    """The piece as it stands, and what is on the screen."""

    piece: Piece
    place: Place


class Task(Struct, frozen=True):
    """One thing to do: what is told, and whether it is done."""

    told: str
    done: Callable[[Seen], bool]


def tasks(plan: Plan) -> tuple[Task, ...]:
    """All of them, in their order."""
    return (*_first_steps(), *_readings(plan), *_away_and_back())


def _first_steps() -> tuple[Task, ...]:
    return (
        Task(
            f"A sample bracelet, {BEGUN} steps in. Nothing here is kept. When a step is done, press Space: do it now.",
            lambda seen: seen.piece.done > BEGUN,
        ),
        Task("It counted that. If it was a slip, press u to undo it.", lambda seen: seen.piece.later is not None),
        Task(f"Go on with Space until step {MEASURED} is done.", lambda seen: seen.piece.done >= MEASURED),
    )


def _readings(plan: Plan) -> tuple[Task, ...]:
    """One that is right, and one by which a bead is missing."""
    right, short = (show(length_mm, display_unit(plan.unit)) for length_mm in sample_readings_mm(plan))
    return (
        Task(
            f"Press m and type {right}, as your ruler might say. Enter takes it.",
            lambda seen: len(seen.piece.readings) > 0,
        ),
        Task(
            f"Readings teach it your knots. Go on with Space until step {OFF} is done.",
            lambda seen: seen.piece.done >= OFF,
        ),
        Task(
            f"Now m and {short}, which is too little. Press Enter until it is taken.",
            lambda seen: len(seen.piece.readings) > 1,
        ),
        Task(
            "Below it says what may be wrong. Count the beads: press r, then Enter if none is missing.",
            lambda seen: bool(seen.piece.counted),
        ),
    )


def _away_and_back() -> tuple[Task, ...]:
    return (
        Task("There are more keys. Press ? to see them all; Esc closes them.", lambda seen: seen.place == "help"),
        Task("Now the phone rings. Press Esc to leave the piece.", lambda seen: seen.place == "bench"),
        Task(
            "This is the bench, where your pieces lie. Press Enter to come back to this one.",
            lambda seen: seen.place in ("recap", "steps"),
        ),
        Task(
            "It tells you where you were. Esc, and Esc again, ends the sample.",
            lambda seen: False,
        ),
    )


def sample_readings_mm(plan: Plan) -> tuple[float, float]:
    """What the ruler is to say: first as planned, then short by a bead and its knot."""
    steps = plan.strands[0].steps
    missing_mm = steps[OFF - 1].strand_mm - steps[OFF - 2].strand_mm
    return steps[MEASURED - 1].strand_mm, steps[OFF - 1].strand_mm - missing_mm


ENDED = "The sample is gone, and nothing of it was kept. d makes a design of your own; + begins a piece of one."
