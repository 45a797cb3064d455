"""Beads that were counted and are missing: placed by all readings, and by no single slip of the ruler."""

from __future__ import annotations

import pytest

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from tests.core.forecast.light import G, K, S, plan_of, planned

PLAN = plan_of([G, K, S, K] * 12)
MISSING_MM = 8.0  # a glass and its knot


def outlook(*pairs, beads=-1, until=24):
    taken = tuple(Measured("strand", step, planned(PLAN, step) + off_mm, "") for step, off_mm in pairs)
    counted = (Recounted(until, 0, beads),)
    return Forecaster(PLAN, faults=True).outlook(Piece(PLAN.total_steps, until, readings=taken, counted=counted))


@pytest.mark.parametrize("lost_at", [3, 9, 15])
@pytest.mark.parametrize("slip_mm", [-160.0, -55.0, 60.0, 150.0, 900.0])
def test_a_slip_at_the_end_makes_no_good_reading_look_wrong(lost_at, slip_mm) -> None:
    """A bead is missing somewhere; the last reading is of nothing of the sort. It alone is doubted."""
    good = [(step, -MISSING_MM if step >= lost_at else 0.0) for step in (6, 12, 18)]
    found = outlook(*good, (24, slip_mm))
    assert found.set_aside == ()
    assert found.verdict == "measure again"
    assert next(fault.from_step for fault in found.faults if fault.kind == "misread") == 24


@pytest.mark.parametrize(("lost_at", "short"), [(3, [6, 12, 18]), (9, [12, 18]), (15, [18])])
def test_it_is_where_the_readings_say(lost_at, short) -> None:
    """By hand: a reading beyond the missing bead is as much short as the others say."""
    good = [(step, -MISSING_MM if step >= lost_at else 0.0) for step in (6, 12, 18)]
    checks = outlook(*good).checks
    assert [one.reading.step for one in checks if one.reading.length_mm < planned(PLAN, one.reading.step)] == short
    assert all(abs(one.off_mm) < 1.0 for one in checks)
