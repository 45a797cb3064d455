"""What remedies are worked out from: today's lengths, and which knot may stand beside which bead."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.remedies.basis import RATE_LIMITS, RemedyBasis
from companion.core.remedies.remaining_layout import Edit, RemainingLayout
from companion.core.values.design import BeadKind, Repeat
from tests.core.outlooks import forecast
from tests.core.remedies.off_plan import KINDS, D, G, K, S, planned


def basis_of(plan, *readings, done=13):
    piece = Piece(plan.total_steps, done, readings=tuple(readings))
    return RemedyBasis.of(plan, RemainingLayout.of(plan, piece, plan.longest), forecast(plan, piece))


def test_knots_are_as_long_as_the_forecast_expects_them() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    reading = Measured("strand", 13, plan.strands[0].steps[12].strand_mm + 6, "")
    basis = basis_of(plan, reading)
    entry = forecast(plan, Piece(plan.total_steps, 13, readings=(reading,))).entries[0]
    left = basis.layout.sides[0].elements[basis.layout.sides[0].made :]
    assert basis.knot_rate > 1
    assert sum(map(basis.mm, left)) == pytest.approx(entry.strand_end.mean_mm - entry.strand_now.mean_mm)
    assert basis.mm(G) == 6


@pytest.mark.parametrize(("off_mm", "rate"), [(-90.0, RATE_LIMITS[0]), (400.0, RATE_LIMITS[1])])
def test_no_reading_makes_knots_longer_or_shorter_than_knots_are(off_mm, rate) -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    reading = Measured("strand", 13, plan.strands[0].steps[12].strand_mm + off_mm, "")
    assert basis_of(plan, reading).knot_rate == rate


def test_what_edits_add_and_take() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    basis = basis_of(plan)
    assert basis.gain_mm([Edit(0, 30, 30, (G, K))]) == pytest.approx(basis.mm(G) + basis.mm(K))
    assert basis.gain_mm([Edit(0, 30, 32, ())]) == pytest.approx(-basis.mm(G) - basis.mm(K))
    assert basis.cord_mm(K) == pytest.approx(2 + 6)
    assert basis.cord_mm(S) == 2


def test_a_knot_stands_beside_a_bead_that_it_holds_or_that_has_such_a_knot() -> None:
    """Singles of this cord are 1.85 mm across."""
    wide = replace(KINDS[0], hole_mm=2.5)
    unknown = BeadKind("s", "Silver", 2, 5)
    basis = basis_of(planned((Repeat(12, (G, D)), Repeat(12, (S, D))), 200.0, kinds=(wide, unknown)), done=3)
    assert not basis.holds(K, "g")
    assert basis.holds(K, "s")
    already = basis_of(planned((Repeat(25, (G, K)),), 200.0, kinds=(wide, unknown)), done=3)
    assert already.holds(K, "g")
