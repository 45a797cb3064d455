"""What is laid out before the first knot."""

from __future__ import annotations

from companion.core.closures.table import CLOSURES
from companion.core.plan.planner import compile_plan
from companion.core.plan.tray import beads_to_count_out, closures_of, findings, spare_beads, tools
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, End, Knot, Repeat, Strand
from tests.core.hand_plans import GLASS, SILVER, hand_plan, skerry_elements


def test_tools_come_once_each_knots_first():
    plan = hand_plan(closures=("bead tip and clasp", "cord end and clasp"))
    assert tools(plan) == ("awl", "ruler", "needle with a wide eye", "flat pliers", "snips", "glue")


def test_a_needle_takes_the_awl_s_place():
    """One for the knots; the one that strings the beads hangs at the end of the cord."""
    assert tools(hand_plan(needle=True))[:3] == ("blunt needle", "ruler", "needle")
    assert "awl" not in tools(hand_plan(needle=True))


def test_no_tool_of_any_closure_is_left_out():
    for name, closure in CLOSURES.items():
        laid = " ".join(tools(hand_plan(closures=(name, name))))
        assert all(tool in laid for tool in ("awl", "ruler", *closure.tools)), name


def test_a_side_without_a_closure_in_the_middle_is_no_trouble():
    plan = hand_plan(closures=("", "plain tail"))
    assert [closure.name for closure in closures_of(plan)] == ["plain tail"]


def test_beads_of_all_strands_are_added_up_in_the_order_of_the_design():
    spare = BeadKind("spare", "Spare", 4, 4)
    other = (Bead("silver"), Knot("double"), Bead("silver"))
    plan = hand_plan(skerry_elements(), other, beads=(SILVER, spare, GLASS))
    assert beads_to_count_out(plan) == ((SILVER, 4), (GLASS, 21))


def test_findings_are_counted_over_all_strands_and_sides():
    """Three strands on bead tips share one clasp; a strand worked from the middle has two ends, not four."""
    three = compile_plan(
        Design("Dun", CORD, (PEARL,), tuple(Strand(RUN, tip("a" * n), tip(), name) for n, name in enumerate("xyz")))
    )
    assert [(one.name, one.count) for one in findings(three)] == [
        ("bead tip", 6),
        ("seed bead", 6),
        ("clasp with three rings each side", 1),
    ]
    middle = compile_plan(
        Design("Dun", CORD, (PEARL,), (Strand(RUN, tip(), tip("hook clasp"), work="from the middle"),))
    )
    assert [(one.name, one.count) for one in findings(middle)] == [
        ("bead tip", 2),
        ("seed bead", 2),
        ("hook clasp", 1),
    ]


def test_a_few_beads_to_spare_of_each_kind():
    plan = compile_plan(Design("Dun", CORD, (PEARL,), (Strand((Repeat(60, (Bead("p"), Knot("single"))),)),)))
    assert [(kind.key, count) for kind, count in spare_beads(plan)] == [("p", 2)]


PEARL = BeadKind("p", "Grey pearl", 7, 7, 1.2)
CORD = CordDesign("silk", 0.45)
RUN = (Repeat(4, (Bead("p"), Knot("single"))),)


def tip(finding: str = "") -> End:
    return End("bead tip and clasp", finding="" if finding.startswith("a") else finding)
