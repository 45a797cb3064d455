"""The Longstone necklace, 18 in with a quarter inch allowed, and a maker's readings of it.

At step 16 the ruler slipped twice: by an inch, and, measured again, by 3/16 in. What came after is right: the knots run
tight, and the piece comes out short.
"""

from __future__ import annotations

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Repeat,
    Size,
    Strand,
)

INCH = 25.4
SIXTEENTH = INCH / 16
UNDER_THE_RULER_MM = 3 * 1.3
AN_INCH_TOO_MUCH = (16, 10 + 3 / 16)
READ = ((11, 3 + 7 / 16), AN_INCH_TOO_MUCH, (16, 9 + 3 / 16), (18, 11.25), (18, 11.25), (19, 12 + 5 / 16))
RIGHT_COUNT = Recounted(18, 16)  # after the fourth reading she counted: no bead is missing


def longstone() -> Plan:
    """Grey pearls, a knot after every fourth, French wire at both ends."""
    pearl, wire = Bead("pearl"), End("French wire and clasp")
    cord = CordDesign(
        "twisted silk, fine", 0.45, 1, knots=(("single", KnotNumbers(4.5, 1.3)),), material="silk", worked_with="needle"
    )
    layout = (Repeat(None, (pearl, pearl, pearl, pearl, Knot("single"))), pearl, pearl, pearl)
    size = Size("length", 18 * INCH, 0, INCH / 4)
    grey = BeadKind("pearl", "Grey pearl", 7, 7, 1.0)
    return compile_plan(Design("Longstone necklace", cord, (grey,), (Strand(layout, wire, wire),), size, unit="in"))


def reading(step: int, inches: float) -> Measured:
    """What a ruler with sixteenths said of the strand after that step, the knots of the French wire left out; they lie
    among the first pearls, and so under the ruler too."""
    return Measured("strand", step, inches * INCH + UNDER_THE_RULER_MM, f"{inches} in", SIXTEENTH)


def measured(plan: Plan, *readings: tuple[int, float], counted: bool = False) -> tuple[Piece, Outlook]:
    """The piece after these readings, each a step and inches, and what is expected of it."""
    taken = tuple(reading(step, inches) for step, inches in readings)
    counts = (RIGHT_COUNT,) if counted else ()
    piece = Piece(plan.total_steps, max(step for step, _ in readings), readings=taken, counted=counts)
    return piece, Forecaster(plan, faults=True).outlook(piece)
