"""A maker who does what she is asked to: she counts the beads, or measures again."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from companion.core.forecast.counting import stretch_to_count, suspected_miscount
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.design import Bead
from tests.benchmarks.simulation.pieces import Simulated

HAND_MM = {"strand": 1.0, "free": 2.0}
MOST_ASKED = 3  # times at one place


def answered(
    draw: np.random.Generator, made: Simulated, plan: Plan, forecaster: Forecaster, piece: Piece
) -> tuple[Piece, Outlook]:
    """The piece and what is expected of it, once she has answered."""
    outlook = forecaster.outlook(piece)
    for _ in range(MOST_ASKED):
        if outlook.verdict == "measure again" and outlook.doubtful is not None:
            again = measured_again(draw, made, plan, outlook.doubtful)
            piece = replace(piece, readings=(*piece.readings, again))
        elif suspected_miscount(plan, outlook) is not None:
            piece = replace(piece, counted=(*piece.counted, counted(made, plan, piece, outlook)))
        else:
            break
        outlook = forecaster.outlook(piece)
    return piece, outlook


def measured_again(draw: np.random.Generator, made: Simulated, plan: Plan, doubted: Measured) -> Measured:
    """The same reading once more, as good as a ruler is."""
    step = doubted.step - _first(plan)
    true_mm = made.strand[step] if doubted.kind == "strand" else plan.strands[0].cut_mm - made.used[step]
    read_mm = true_mm + draw.normal(0, HAND_MM[doubted.kind])
    return replace(doubted, length_mm=float(round(read_mm / made.ruler_mm) * made.ruler_mm))


def counted(made: Simulated, plan: Plan, piece: Piece, outlook: Outlook) -> Recounted:
    """The beads of the steps that are asked about, as they are."""
    asked = stretch_to_count(plan, piece, outlook)
    assert made.truth is not None
    lost, more = made.truth.lost, 0
    if lost is not None and isinstance(plan.strands[0].elements[lost], Bead):
        at = _first(plan) + next(number for number, elements in enumerate(made.steps) if elements > lost)
        if asked.since < at <= asked.step:
            more = 1 if "bead too many" in made.truth.slips else -1
    return Recounted(asked.step, asked.since, more)


def _first(plan: Plan) -> int:
    """The first step that strings anything."""
    return next(step.number for step in plan.strands[0].steps if step.kind == "string")
