"""What the hypotheses say of pieces that really went wrong."""

from __future__ import annotations

import pytest

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.values.design import Repeat
from tests.core.forecast.light import G, K, outlook, plan_of, planned


def test_without_readings_and_without_faults_nothing_is_suspected() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    quiet = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, 5))
    assert (quiet.p_fault, quiet.faults, quiet.verdict) == (0.0, (), "on plan")
    found = outlook(plan, [(n, planned(plan, n)) for n in (5, 10, 15, 20, 25)])
    assert found.p_fault < 0.25
    assert found.verdict == "on plan"


def test_a_bead_skipped_is_a_recount_that_names_the_steps_and_right_beads_end_it() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    readings = [(6, planned(plan, 6)), (12, planned(plan, 12) - 6.2), (18, planned(plan, 18) - 6.0)]
    found = outlook(plan, readings)
    assert found.verdict == "recount"
    fault = found.faults[0]
    assert fault.kind == "bead missed"
    assert (fault.from_step, fault.to_step) == (7, 12)
    counted = outlook(plan, readings, counted=(Recounted(18),))
    assert counted.verdict != "recount"
    assert sum(s.p for s in counted.faults if s.kind.startswith("bead")) < 0.02
    put_right = outlook(plan, [(6, planned(plan, 6)), (18, planned(plan, 18))])
    assert put_right.verdict == "on plan"


@pytest.mark.parametrize("beads", [-1, 1])
def test_beads_counted_and_wrong_are_known_and_foretold(beads) -> None:
    """The maker has counted: a bead fewer (more). No hypothesis is left of it, and the forecast is off by that bead."""
    plan = plan_of([Repeat(30, (G, K))])
    off = [(6, 0.0), (12, 6.1 * beads), (18, 5.9 * beads)]
    readings = [(step, planned(plan, step) + mm) for step, mm in off]
    found = outlook(plan, readings, counted=(Recounted(18, 0, beads),))
    plain = outlook(plan, [(step, planned(plan, step) + mm - (6 * beads if step > 6 else 0)) for step, mm in off])
    assert found.verdict in ("watch", "off")
    assert sum(s.p for s in found.faults if s.kind.startswith("bead")) < 0.02
    assert found.finished.mean_mm == pytest.approx(plain.finished.mean_mm + 6 * beads, abs=0.3)
    assert found.entries[0].free_end.mean_mm == pytest.approx(plain.entries[0].free_end.mean_mm - 6 * beads, abs=0.3)
    unread = outlook(plan, [(6, planned(plan, 6))], counted=(Recounted(12, 6, beads),))
    assert unread.finished.mean_mm == pytest.approx(plan.finished_length_mm + 6 * beads, abs=1.5)


def test_an_inch_too_much_is_measured_again_first() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    found = outlook(plan, [(6, planned(plan, 6)), (12, planned(plan, 12) + 25.4)])
    assert found.verdict == "measure again"
    assert found.faults[0].kind == "misread"
    assert found.faults[0].off_mm == pytest.approx(25.4)
    assert found.finished.mean_mm == pytest.approx(plan.finished_length_mm, abs=4)


def test_a_tight_evening_goes_off_with_its_reason() -> None:
    plan = plan_of([Repeat(30, (G, K))], length_mm=240)
    tight = [(n, planned(plan, n) - 0.6 * max(0, n - 12)) for n in (4, 8, 12, 16, 20, 24)]
    found = outlook(plan, tight)
    assert found.verdict in ("off", "watch")
    assert found.faults[0].kind == "tension changed"
    assert found.finished.mean_mm < 240 - 6


def test_a_cord_cut_short_shows_in_the_cord_and_not_in_the_strand() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    free = plan.strands[0].steps[14].free_cord_mm
    piece = Piece(plan.total_steps, 15, readings=(Measured("free", 15, free - 100, ""),))
    found = Forecaster(plan, faults=True).outlook(piece)
    assert found.faults[0].kind == "cut shorter"
    assert found.finished.mean_mm == pytest.approx(plan.finished_length_mm, abs=2)
    assert found.entries[0].cord.verdict == "short to hold"


def test_a_cord_shortened_on_the_way_is_believed_at_the_second_reading() -> None:
    """Free cord was right at step 8; 100 mm less at 18 may be a slip of the ruler, but hardly a second time."""
    plan = plan_of([Repeat(30, (G, K))])
    steps = plan.strands[0].steps
    right = Measured("free", 8, steps[7].free_cord_mm, "")
    short = Measured("free", 18, steps[17].free_cord_mm - 100, "")
    first = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, 18, readings=(right, short)))
    assert {fault.kind for fault in first.faults[:2]} == {"misread", "cord shortened"}
    again = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, 18, readings=(right, short, short)))
    assert again.faults[0].kind == "cord shortened"
    assert again.faults[0].p > 0.9
    assert again.verdict == "on plan"
    assert again.finished.mean_mm == pytest.approx(plan.finished_length_mm, abs=2)
    assert again.entries[0].cord.verdict == "short to hold"
