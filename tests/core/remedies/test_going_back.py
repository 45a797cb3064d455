"""Going back to where a bead was lost."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Fault
from companion.core.journal.events import Jumped, Measured
from companion.core.journal.fold import after, undo_of
from companion.core.journal.piece import Piece
from companion.core.remedies.going_back import way_back
from companion.core.remedies.search import remedies
from companion.core.values.design import (
    Repeat,
)
from tests.core.remedies.off_plan import G, K, family, planned


def lost_bead():
    """Two beads and their knots short between steps 13 and 18."""
    plan = planned((Repeat(25, (G, K)),), 200.0)
    steps_mm = [step.strand_mm for step in plan.strands[0].steps]
    readings = [Measured("strand", n, steps_mm[n - 1] - (8 if n > 12 else 0), "") for n in (6, 9, 12, 15, 18)]
    piece = Piece(plan.total_steps, 18, readings=tuple(readings))
    return plan, piece, Forecaster(plan, faults=True).outlook(piece)


def test_the_way_back_counts_what_has_to_be_undone() -> None:
    plan, piece, outlook = lost_bead()
    assert outlook.faults[0].kind == "bead missed"
    way = way_back(plan, piece, outlook)
    assert way.step == 12
    assert way.knots == 6
    strand = plan.strands[0]
    left = strand.elements[strand.steps[11].elements :]
    expected = len(left) // 2 * (6 + 2 + 6) + strand.end_closure_cord_mm + strand.end_tail_mm
    assert way.fresh_mm == pytest.approx(expected + strand.working_allowance_mm)
    assert "6 knots to undo. Tight knots in silk rarely come undone. If they won't, cut there" in way.words


def test_going_back_is_a_jump_that_undo_takes_back() -> None:
    plan, piece, outlook = lost_bead()
    one = family(remedies(plan, piece, outlook), "back")
    assert one is not None
    assert one.back_to == 12
    assert one.rests == ()
    assert one.p_in_tolerance > outlook.p_in_tolerance
    jumped = after(piece, Jumped(one.back_to))
    assert (jumped.done, len(jumped.readings)) == (12, 3)
    assert after(jumped, undo_of(jumped)).readings == piece.readings


def test_no_way_back_without_a_fault_that_began_somewhere() -> None:
    plan, piece, outlook = lost_bead()
    for fault in (
        Fault("misread", 0.9, 0, 13, 18),
        Fault("bead missed", 0.2, 0, 13, 18),
        Fault("bead missed", 0.9, 0, 1, 6),
    ):
        assert way_back(plan, piece, replace(outlook, faults=(fault,))) is None
