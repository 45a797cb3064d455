"""A strand of glass and silver in silk, and what is expected of it after some readings."""

from __future__ import annotations

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Size, Strand

G, S, K = Bead("g"), Bead("s"), Knot("single")
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 9, 5, 1.0))
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


def plan_of(layout, assumptions=USUAL, length_mm=240.0):
    design = Design("Light", CORD, KINDS, (Strand(tuple(layout)),), Size("length", length_mm, 0, 3.0))
    return compile_plan(design, assumptions=assumptions)


def outlook(plan, readings, assumptions=USUAL, counted=()):
    taken = tuple(Measured("strand", step, mm, "") for step, mm in readings)
    piece = Piece(plan.total_steps, max(step for step, _ in readings), readings=taken, counted=counted)
    return Forecaster(plan, assumptions, faults=True).outlook(piece)


def planned(plan, step):
    return plan.strands[0].steps[step - 1].strand_mm
