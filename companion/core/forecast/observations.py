"""What was read and counted of a piece, as the covariance model sees it."""

from __future__ import annotations

from itertools import islice

from msgspec import Struct

from companion.core.forecast.cord_budget import closing_step, fixed_mm, free_at_start_mm
from companion.core.forecast.faults.segment import BeadCount, Segment
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.uncertainty.covariance import CORD, STRAND, CovarianceModel, Quantity
from companion.core.values.assumptions import Assumptions

OWN_KNOTS = frozenset({"French wire and clasp"})  # closures that tie knots among the beads: see the table of closures


class Observation(Struct, frozen=True):
    """One reading: what was read, its value, and the variance that the ruler and the hand add to it (`noise_mm2`).

    `scaled`: whether it is a strand reading. An error of the ruler's scale then shifts it in proportion to
    `planned_mm`, the length by the plan.
    """

    quantity: Quantity
    value_mm: float
    noise_mm2: float
    scaled: bool
    planned_mm: float


def observations(plan: Plan, model: CovarianceModel, assumptions: Assumptions, piece: Piece) -> tuple[Observation, ...]:
    """The piece's readings that say something of knots or beads, in the order in which they were taken. A free-cord
    reading before an entry's first bead or knot says only how long the cord is; `free_at_start_mm` uses that one."""
    found = (_observation(plan, model, assumptions, piece, reading) for reading in piece.readings)
    return tuple(one for one in found if one is not None)


def _observation(
    plan: Plan, model: CovarianceModel, assumptions: Assumptions, piece: Piece, reading: Measured
) -> Observation | None:
    entry, number = plan.place(reading.step) if reading.step else (0, 0)
    elements = plan.strands[entry].steps[number - 1].elements if number else 0
    if elements == 0:
        return None
    ruler_mm2 = reading.ruler_step_mm**2 / 12
    if reading.kind == "strand":
        quantity = Quantity(entry, elements, STRAND)
        noise_mm2 = ruler_mm2 + assumptions.strand_handling_mm**2
        value_mm = reading.length_mm - own_knots_mm(plan, entry, number)
        return Observation(quantity, value_mm, noise_mm2, True, model.mean_mm(quantity))
    quantity = Quantity(entry, elements, CORD)
    start_mm = free_at_start_mm(plan, piece, entry, reading)
    used_mm = start_mm - fixed_mm(plan, entry, number) - reading.length_mm
    noise_mm2 = ruler_mm2 + assumptions.free_cord_handling_mm**2
    return Observation(quantity, used_mm, noise_mm2, False, model.mean_mm(quantity))


def ruler_mm(plan: Plan, entry: int, number: int) -> float:
    """What the ruler should say of an entry by the plan once `number` of its steps are made, mm: beads, knots and bare
    cord as they lie along it, whoever ties the knots."""
    return plan.strands[entry].steps[number - 1].strand_mm + own_knots_mm(plan, entry, number) if number else 0.0


def own_knots_mm(plan: Plan, entry: int, number: int) -> float:
    """The knots that the closures have tied among the beads once `number` steps of an entry are made, mm. The ruler
    lies over them; in the plan they are in the closures' length, not in the strand's."""
    strand = plan.strands[entry]
    step = strand.steps[number - 1] if number else None
    if step is None or not step.elements or not OWN_KNOTS.intersection((strand.start_closure, strand.end_closure)):
        return 0.0
    from companion.core.plan.ends import MOST_LOOKED_AT, outermost, own_beads  # for a closure that ties knots

    knots = 0
    if own_beads(strand.start_closure, at_start=True):
        made = islice(strand.elements, min(step.elements, MOST_LOOKED_AT))
        knots += sum(not tied for tied in outermost(made).knotted)
    if (half := own_beads(strand.end_closure, at_start=False)) and number >= closing_step(plan, entry):
        lies = outermost(islice(reversed(strand.elements), MOST_LOOKED_AT))
        knots += half - sum(lies.knotted[: half - 1])
    return knots * plan.cord.knot("single").length_mm


def elements_read(plan: Plan, reading: Measured) -> int:
    """How many elements of its entry were made when a reading was taken; 0: it only says how long the cord is."""
    entry, number = plan.place(reading.step) if reading.step else (0, 0)
    return plan.strands[entry].steps[number - 1].elements if number else 0


def read_of(plan: Plan, piece: Piece) -> tuple[Measured, ...]:
    """The readings that are observations, in the order of `observations`: those with a bead or knot made before."""
    return tuple(reading for reading in piece.readings if elements_read(plan, reading))


def count_observations(plan: Plan, piece: Piece) -> tuple[BeadCount, ...]:
    """What the maker has counted, as segments of the entries that it goes over."""
    found = []
    for number, counted in enumerate(piece.counted):
        for entry in range(len(plan.strands)):
            first, last = (elements_made(plan, entry, step) for step in (counted.since, counted.step))
            if first < last:
                found.append(BeadCount(Segment(entry, first, last), counted.beads, number))
    return tuple(found)


def elements_made(plan: Plan, entry: int, step: int) -> int:
    """How many of an entry's elements are made after step `step` of the piece."""
    steps = plan.strands[entry].steps
    number = min(max(step - plan.piece_step(entry, 0), 0), len(steps))
    return steps[number - 1].elements if number else 0
