"""A short cord before anything is made with it: cut a longer one, first of all."""

from __future__ import annotations

import pytest

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Confirmed, CutEntered, Measured, Started
from companion.core.journal.fold import after, fold
from companion.core.remedies.remedy_words import best_is_poor, remedy_line
from companion.core.remedies.search import remedies
from companion.core.values.design import Repeat
from tests.core.remedies.off_plan import CLASP, G, K, planned

PLAN = planned((Repeat(25, (G, K)),), 224.0, end=CLASP)
BEFORE = sum(step.kind == "start" for step in PLAN.strands[0].steps)


def cut_short(done, *events):
    """A piece of so many steps with a cord of half the planned length, and what is offered."""
    cut = CutEntered(0, PLAN.cuts[0].cut_mm / 2, "")
    piece = fold([Started(PLAN.total_steps), cut, *(Confirmed(number) for number in range(1, done + 1)), *events])
    return piece, remedies(PLAN, piece, Forecaster(PLAN, faults=True).outlook(piece))


@pytest.mark.parametrize("done", [0, BEFORE])
def test_until_something_is_made_a_longer_cord_comes_first(done) -> None:
    piece, found = cut_short(done)
    first = found[0]
    shown = f"{first.cut.length_mm:.0f} mm"
    assert remedy_line(PLAN, first) == (
        f"Cut a longer cord, {shown}. Nothing is knotted on this one yet. Then there is enough cord."
    )
    assert not any(one.join or one.afresh for one in found)
    assert all(one.p_in_tolerance >= 0.2 for one in found[1:])
    assert best_is_poor(found) == ""
    with_it = Forecaster(PLAN, faults=True).outlook(after(piece, first.cut))
    assert with_it.entries[0].cord.verdict == "enough"
    assert first.cut.length_mm >= PLAN.cuts[0].cut_mm


def test_once_a_bead_is_made_or_the_cord_was_measured_it_is_not_offered() -> None:
    assert all(one.cut is None for one in cut_short(BEFORE + 1)[1])
    assert all(one.cut is None for one in cut_short(BEFORE, Measured("free", BEFORE, 200.0, ""))[1])
