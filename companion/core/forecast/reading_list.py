"""All readings of a piece: what each was, what was expected there, and whether it counts."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from companion.core.forecast.cord_budget import free_at_start_mm
from companion.core.forecast.forecaster import Forecaster, expected
from companion.core.forecast.observations import elements_read, own_knots_mm, ruler_mm
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.uncertainty.covariance import STRAND, Quantity

# "left behind": of a step that a jump back took back; the count may have been wrong when it was taken.
ReadingState = Literal["counts", "set aside", "taken out", "left behind"]


class ListedReading(Struct, frozen=True):
    """One reading. `number`: from 1, in the order in which they were taken; None for one that was left behind.

    What was expected there, mm: `planned_mm` by the plan, and the cord as it was cut; `believed_mm` by the readings
    taken before it that count now, None where there was none. Of one left behind nothing can be said.
    """

    number: int | None
    measured: Measured
    state: ReadingState
    planned_mm: float | None = None
    believed_mm: float | None = None

    @property
    def expected_mm(self) -> float | None:
        """The better of the two: what was expected before the ruler was laid on."""
        return self.planned_mm if self.believed_mm is None else self.believed_mm


def reading_list(forecaster: Forecaster, piece: Piece) -> tuple[ListedReading, ...]:
    """Those of the piece in the order in which they were taken, then those left behind."""
    _, believed, aside = forecaster.believed(piece)
    listed, before = [], 0
    for number, one in enumerate(piece.all_readings, start=1):
        state: ReadingState = "counts" if one.counts else "taken out"
        if any(one.measured is other for other in aside):
            state = "set aside"
        earlier = replace(believed, readings=believed.readings[:before])
        planned_mm = _planned_mm(forecaster.plan, earlier, one.measured)
        believed_mm = _believed_mm(forecaster, earlier, aside, one.measured)
        listed.append(ListedReading(number, one.measured, state, planned_mm, believed_mm))
        before += state == "counts"
    return (*listed, *(ListedReading(None, measured, "left behind") for measured in piece.left_behind))


def _planned_mm(plan: Plan, earlier: Piece, reading: Measured) -> float:
    """What the plan has where a reading was taken; `earlier`: the piece with the readings before it alone."""
    entry, number = plan.place(reading.step) if reading.step else (0, 0)
    step = plan.strands[entry].steps[number - 1] if number else None
    if reading.kind == "strand":
        return ruler_mm(plan, entry, number)
    return free_at_start_mm(plan, earlier, entry, reading) - (step.cord_used_mm if step else 0.0)


def _believed_mm(
    forecaster: Forecaster, earlier: Piece, aside: tuple[Measured, ...], reading: Measured
) -> float | None:
    """What the readings before it let expect there; None where they say nothing of it."""
    plan = forecaster.plan
    elements, known = elements_read(plan, reading), sum(bool(elements_read(plan, one)) for one in earlier.readings)
    if not elements or not known:
        return None
    entry, number = plan.place(reading.step)
    evidence = forecaster.estimator_without(aside).earlier(known)
    if reading.kind == "strand":
        laid = expected(forecaster.estimator.mixture(evidence, [Quantity(entry, elements, STRAND)]))
        return laid.mean_mm + own_knots_mm(plan, entry, number)
    start_mm = free_at_start_mm(plan, earlier, entry, reading)
    return expected(forecaster.free(evidence, start_mm, entry, number)).mean_mm
