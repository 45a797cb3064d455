"""What is laid out before the first knot."""

from __future__ import annotations

from companion.core.closures.table import CLOSURES
from companion.core.plan.tray import beads_to_count_out, closures_of, tools
from companion.core.values.design import Bead, BeadKind, Knot
from tests.core.hand_plans import GLASS, SILVER, hand_plan, skerry_elements


def test_tools_come_once_each_knots_first():
    plan = hand_plan(closures=("bead tip and clasp", "cord end and clasp"))
    assert tools(plan) == ("awl", "ruler", "flat pliers", "snips", "glue")


def test_a_needle_takes_the_awl_s_place():
    assert tools(hand_plan(needle=True))[:2] == ("needle", "ruler")


def test_no_tool_of_any_closure_is_left_out():
    for name, closure in CLOSURES.items():
        assert set(tools(hand_plan(closures=(name, name)))) == {"awl", "ruler", *closure.tools}


def test_a_side_without_a_closure_in_the_middle_is_no_trouble():
    plan = hand_plan(closures=("", "plain tail"))
    assert [closure.name for closure in closures_of(plan)] == ["plain tail"]


def test_beads_of_all_strands_are_added_up_in_the_order_of_the_design():
    spare = BeadKind("spare", "Spare", 4, 4)
    other = (Bead("silver"), Knot("double"), Bead("silver"))
    plan = hand_plan(skerry_elements(), other, beads=(SILVER, spare, GLASS))
    assert beads_to_count_out(plan) == ((SILVER, 4), (GLASS, 21))
