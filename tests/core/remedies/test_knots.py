"""Other knots for the rest, as far as they hold their beads."""

from __future__ import annotations

from itertools import pairwise

import pytest

from companion.core.plan.replan import changed_plan
from companion.core.values.design import (
    Bead,
    BeadKind,
    Repeat,
)
from tests.core.remedies.off_plan import KINDS, D, G, K, S, aimed, family, planned, short_of_cord, what_to_do


def test_doubles_for_singles_only_as_many_as_bring_the_length() -> None:
    """A double is 1 mm longer than a single: five for 5 mm, and 4 + 1 mm of cord each. The singles settle by 0.5 mm."""
    plan = planned((Repeat(25, (S, K)),), 100.0)
    _, _, found = what_to_do(aimed(plan, 104.5), 8, cut_share=1.2)
    one = family(found, "knots")
    assert one.rests[0].elements.count(D) == 5
    assert one.rests[0].elements[-10:] == (S, D) * 5
    assert one.cord_mm == pytest.approx(5 * (4 + 1))


def test_a_knot_that_would_let_the_bead_slip_is_not_offered() -> None:
    """Singles of this cord are 1.85 mm across, by the table of holes; the hole is 1.9 mm."""
    tight, wide = BeadKind("g", "Glass", 6, 6, 1.8), BeadKind("g", "Glass", 6, 6, 1.9)
    for kind, offered in ((tight, True), (wide, False)):
        plan = planned((Repeat(25, (G, D)),), 225.0, kinds=(kind,))
        _, _, found = what_to_do(aimed(plan, 220.0), 8)
        assert (family(found, "knots") is not None) == offered


def test_leaving_a_step_out_brings_no_knot_beside_a_bead_that_slips_over_it() -> None:
    """A wide bead between two doubles; the steps before it end in singles, which are 1.85 mm across."""
    wide = BeadKind("w", "Wide", 7, 9, 2.0)
    layout = (Repeat(6, (G, K)), S, D, Bead("w"), D, Repeat(6, (G, K)), S, D, Bead("w"), D)
    plan = planned(layout, 150.0, kinds=(*KINDS, wide))
    for off_mm in (-5, -12, -20, 12):
        found = what_to_do(aimed(plan, plan.finished_length_mm + off_mm), 2)[2]
        for one in (one for one in found if one.rests):
            new = changed_plan(plan, (one.event(0),)).strands[0].elements
            assert not {(K, Bead("w")), (Bead("w"), K)} & set(pairwise(new))


def test_a_knot_at_every_third_bead() -> None:
    _, _, found = short_of_cord()
    one = family(found, "cord", "fewer knots")
    assert one.what == "A knot only at every third bead from here on. This breaks the pattern"
    rest = one.rests[0].elements
    assert rest[:8] == (G, G, G, D, G, G, G, D)
    gone = 16 - rest.count(D)
    assert one.cord_mm == pytest.approx(-gone * 13)  # a double: 3 of length, 10 of take-up
