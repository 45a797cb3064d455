"""What can be changed at the end of a strand."""

from __future__ import annotations

import pytest

from companion.core.closures.table import CLOSURES
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import changed_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import (
    Design,
    End,
    Repeat,
    Size,
    Space,
    Strand,
)
from tests.core.oracles.plan_checks import check_identities
from tests.core.remedies.off_plan import CLASP, CORD, KINDS, G, K, S, aimed, family, planned, short_of_cord, what_to_do


def worn_mm(plan):
    """The finished length with its knots settled, as the forecast gives it."""
    knots_mm = sum(plan.cord.knot(kind).length_mm * count for kind, count in plan.strands[0].knots)
    return plan.finished_length_mm - USUAL.settling_share * knots_mm


def test_closures_give_as_much_as_their_kind_can() -> None:
    plan = planned((Repeat(25, (G, K)),), 224.0, end=CLASP)
    one = family(what_to_do(aimed(plan, worn_mm(plan) + 5), 10)[2], "closure")
    assert one.text.startswith("A closure 5 mm longer (a longer clasp, or a ring). ")
    assert one.finished_mm == pytest.approx(worn_mm(plan) + 5, abs=0.01)
    assert one.closure_mm == pytest.approx(5, abs=0.01)
    far = family(what_to_do(aimed(plan, worn_mm(plan) - 7), 10)[2], "closure")
    assert far.closure_mm == pytest.approx(-CLOSURES["bead tip and clasp"].gives.shorter_mm)
    tail = planned((Repeat(25, (G, K)),), 200.0)
    assert not any("closure" in one.family for one in what_to_do(aimed(tail, 206.0), 10)[2])


def test_a_longer_shank_takes_cord() -> None:
    """Out to the button and back again: two of cord for each mm."""
    end = End("loop and button")
    layout = (Repeat(25, (G, K)),)
    plan = compile_plan(Design("Light", CORD, KINDS, (Strand(layout, end, end),), Size("length", 222.0)))
    one = family(what_to_do(aimed(plan, worn_mm(plan) + 6), 10)[2], "closure")
    assert one.text.startswith("A closure 6 mm longer (a longer shank below the button). ")
    assert one.cord_mm == pytest.approx(12, abs=0.02)
    new = changed_plan(plan, (one.event(0),))
    assert new.strands[0].end_closure_cord_mm == pytest.approx(plan.strands[0].end_closure_cord_mm + one.cord_mm)
    check_identities(new)


def test_bare_cord_and_a_small_bead_before_the_closure() -> None:
    plan = planned((Repeat(12, (G, K)), S, K, Repeat(12, (G, K)), K), 200.0)
    _, _, found = what_to_do(aimed(plan, worn_mm(plan) + 4), 8)
    assert family(found, "bare").rests[0].elements[-1] == Space(4.0)
    assert family(found, "spacer").rests[0].elements[-2:] == (S, S)
    assert family(found, "spacer").text.startswith(
        "Two more Silvers before the closure. The two sides will then differ. All beads are strung already: first "
        "thread two more on at the loose end. It would finish at "
    )
    assert "The two sides will then differ" in family(found, "bare").text
    assert not any(one.family[0] in ("bare", "spacer") for one in what_to_do(aimed(plan, 190.0), 8)[2])


def test_another_closure_takes_its_own_cord_and_steps() -> None:
    plan, _, found = short_of_cord(0.8, "short to hold")
    one = family(found, "cord", "other closure")
    new = changed_plan(plan, (one.event(0),))
    assert new.strands[0].end_closure == "cord end and clasp"
    assert one.cord_mm == pytest.approx((8 + 20) - (15 + 80))
    check_identities(new)
