"""What a finished piece teaches a cord card: one observation of each kind of knot, however many knots it had.

The piece's readings, its real length and the cord that was left say how long its knots were and how much cord they
took up. How the maker tied that day (the piece effect) is the same in every knot, so a piece of a hundred knots says
hardly more of the card's mean than one of thirty. What a piece says is the posterior of the card's mean after all
readings, with the piece effect unknown. The lesson is that posterior less the prior; lessons are pooled as test rows
are.
"""

from __future__ import annotations

from math import sqrt

from msgspec.structs import replace

from companion.core.cord.lessons import Lesson
from companion.core.forecast.evidence import Evidence
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.observations import own_knots_mm
from companion.core.forecast.outlook import Outlook
from companion.core.forecast.verdicts import MISCOUNT
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.maths.gaussian import conditioned
from companion.core.plan.plan import Plan
from companion.core.plan.uncertainty.covariance import Quantity
from companion.core.values.assumptions import USUAL, Assumptions
from companion.core.values.design import KNOT_KINDS

WRONG_CUT = ("cut shorter", "cut longer")
LEAST_NEWS = 0.02  # a lesson that weighs less than this share of what is known already is none


def ended(plan: Plan, piece: Piece, length_mm: float | None, left_mm: float | None) -> Piece:
    """The piece with its real length (end to end, closure included) and the free cord left of one layer of its last
    entry as readings. A length made of two sides is no reading of either, and is left out."""
    last = len(plan.strands) - 1
    readings = list(piece.readings)
    if length_mm is not None and len(plan.longest) == 1:
        entry = plan.longest[0]
        string = [step.number for step in plan.strands[entry].steps if step.kind == "string"]
        strand_mm = length_mm - plan.strands[entry].closure_length_mm
        if string and strand_mm > 0:
            read_mm = strand_mm + own_knots_mm(plan, entry, string[-1])
            readings.append(Measured("strand", plan.piece_step(entry, string[-1]), read_mm, "finished"))
    if left_mm is not None:
        readings.append(Measured("free", plan.piece_step(last, len(plan.strands[last].steps)), left_mm, "left"))
    return replace(piece, readings=tuple(readings))


def no_lesson(plan: Plan, outlook: Outlook, assumptions: Assumptions = USUAL) -> str:
    """Why a piece teaches nothing, as a sentence; "" where it does. `outlook`: of the piece as it ended."""
    if not any(count for strand in plan.strands for _, count in strand.knots):
        return "It has no knots."
    if sum(fault.p for fault in outlook.faults if fault.kind in MISCOUNT) > assumptions.suspect_above:
        return "A bead seems to be missing or extra, so its length says nothing about its knots."
    if sum(fault.p for fault in outlook.faults if fault.kind == "misread") > assumptions.suspect_above:
        return "A reading seems wrong. Measure again first."
    if sum(fault.p for fault in outlook.faults if fault.kind in WRONG_CUT) > assumptions.suspect_above:
        return "The cord seems to have been shorter or longer than was entered."
    return ""


def lessons(plan: Plan, piece: Piece, name: str, assumptions: Assumptions = USUAL) -> tuple[Lesson, ...]:
    """A lesson for each kind of knot that the piece's readings say anything of. `piece`: as `ended` gives it."""
    forecaster = Forecaster(plan, assumptions)
    _, piece, _ = Forecaster(plan, assumptions, faults=True).believed(piece)  # a slip of the ruler teaches nothing
    evidence = forecaster.estimator.evidence(piece)
    if not evidence.observations:
        return ()
    found = []
    for number, kind in enumerate(KNOT_KINDS):
        knots = sum(sums.knots[number][-1] for sums in forecaster.model.entries)
        figures = plan.cord.knot(kind)
        if not knots:
            continue
        means = (figures.take_up_mm, figures.take_up_sd_mm), (figures.length_mm, figures.length_sd_mm)
        take_up, length = (
            _news(forecaster, evidence, number, which, *means[which]) if means[which][1] > 0 else None
            for which in (0, 1)
        )
        if take_up or length:
            found.append(Lesson(name, kind, knots, take_up, length))
    return tuple(found)


def _news(
    forecaster: Forecaster, evidence: Evidence, kind: int, which: int, mean_mm: float, sd_mm: float
) -> tuple[float, float] | None:
    """What the readings alone say of a mean, with its standard deviation, mm: posterior less prior, as precisions."""
    figures = forecaster.model.cord.knot(KNOT_KINDS[kind])
    other_sd = figures.length_sd_mm if which == 0 else figures.take_up_sd_mm
    mixed = forecaster.assumptions.knot_correlation * sd_mm * other_sd

    def with_reading(quantity: Quantity) -> float:
        knots = forecaster.model.sums(quantity).knots[kind]
        length_weight, take_up_weight = quantity.weights
        own, other = (take_up_weight, length_weight) if which == 0 else (length_weight, take_up_weight)
        return knots * (own * sd_mm**2 + other * mixed)

    column = [with_reading(one.quantity) for one in evidence.observations]
    after, left = conditioned(evidence.innovation, mean_mm, sd_mm**2, evidence.factor.solve_lower(column))
    before = 1 / sd_mm**2
    news = 1 / left - before if left > 0 else 0.0
    if news < LEAST_NEWS * before:
        return None
    seen = (after / left - mean_mm * before) / news
    return (seen, sqrt(1 / news)) if seen > 0 else None
