"""What a maker should see to before the first knot.

Figures from outside have their source beside them. Where it says "common practice, no source" or "own computation" that
is all there is; nothing here is invented.
"""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadRun, CordDesign, Design, End, Knot, Repeat, Size, Space, Strand
from tests.core.hand_designs import PLAIN, bead, design, knots


def test_doubled_cord_and_closure_passes_reach_the_hole_check() -> None:
    """French wire takes the cord back through the end beads: four cords of 0.5 mm need 1.21 mm (2.4142 x 0.5), with no
    room to spare (S. Kravitz's ratios are zero clearance), and 1.33 mm with a tenth of it."""
    wire = End("French wire and clasp")
    cord = CordDesign("c", 0.5, layers=2, knots=knots(6, 2))
    layout = [Bead("b"), Repeat(9, (Knot("single"), Bead("b")))]
    for hole, code in ((1.15, ["hole too small"]), (1.22, ["hole tight"]), (1.34, [])):
        plan = compile_plan(design(layout, cord, [bead(6, hole_mm=hole)], None, wire, wire))
        assert [warning.code for warning in plan.warnings] == code


@pytest.mark.parametrize(("wrist_mm", "questioned"), [(120, True), (154, False), (176, False), (220, True)])
def test_wrists_that_are_asked_about(wrist_mm, questioned) -> None:
    """Least and greatest of Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel; 154 and 176: medians."""
    plan = compile_plan(design([BeadRun("b", None)], CordDesign("c", 0.5), [bead(8)], Size("wrist", wrist_mm)))
    assert ("unusual wrist" in [warning.code for warning in plan.warnings]) == questioned


@pytest.mark.parametrize(("beads", "passes"), [(26, False), (30, True)])
def test_an_endless_bracelet_must_pass_the_hand(beads, passes) -> None:
    """230 mm: the 95th percentile of men's hands, same survey."""
    loop = End("endless")
    plan = compile_plan(design([BeadRun("b", beads)], CordDesign("c", 0.5), [bead(8, hole_mm=2)], None, loop, loop))
    assert ("may not pass" not in [warning.code for warning in plan.warnings]) == passes


CLASPS = ("bead tip and clasp", "French wire and clasp", "crimp and clasp")
TOGGLE = "bar has no room"


def codes(plan) -> list[str]:
    return [warning.code for warning in plan.warnings]


@pytest.mark.parametrize("closure", CLASPS)
def test_beads_beside_a_toggles_bar_must_be_small(closure) -> None:
    """The last few beads near the clasp should be fairly small, so that the bar can be pulled through: Artbeads,
    "Toggle or Toggle Clasp". The widths are our own choice: a third of a bar of 16 mm."""
    ends = End(closure), End(closure, finding="toggle clasp")
    for across_mm, told in ((10, True), (6, True), (5, False)):
        plan = compile_plan(
            design([BeadRun("b", 9)], CordDesign("c", 0.4), [bead(across_mm, hole_mm=1.4)], None, *ends)
        )
        assert (TOGGLE in codes(plan)) == told, across_mm
    (text,) = [w.text for w in plan_with_wide_beads(closure).warnings if w.code == TOGGLE]
    assert "b (10 mm across) is too wide" in text
    assert "small beads there, up to 5 mm across" in text
    assert "links of chain" in text


def plan_with_wide_beads(closure: str, **more):
    ends = End(closure), End(closure, finding="Toggle, silver", **more)
    return compile_plan(design([BeadRun("b", 9)], CordDesign("c", 0.4), [bead(10, hole_mm=1.4)], None, *ends))


def test_a_longer_bar_passes_wider_beads() -> None:
    assert TOGGLE not in codes(plan_with_wide_beads("crimp and clasp", size_mm=30))
    assert TOGGLE in codes(plan_with_wide_beads("crimp and clasp", size_mm=29))


def test_small_beads_or_bare_cord_beside_the_bar_give_it_room() -> None:
    ends = End("crimp and clasp"), End("crimp and clasp", finding="toggle")
    wide, tiny = BeadRun("b", 9), BeadRun("t", 2)
    kinds = [bead(10, hole_mm=1.4), bead(2, "t", hole_mm=1.4)]
    for layout, told in (([wide], True), ([wide, tiny], False), ([wide, Space(4)], False), ([tiny, wide], True)):
        plan = compile_plan(design(layout, CordDesign("c", 0.4), kinds, None, *ends))
        assert (TOGGLE in codes(plan)) == told, layout


def test_another_clasp_or_one_that_is_knotted_on_needs_no_small_beads() -> None:
    """Where it is knotted on, the step itself leaves half the bar's length bare."""
    for closure, finding in (("crimp and clasp", "lobster clasp"), ("knotted to the clasp", "toggle")):
        ends = End(closure), End(closure, finding=finding)
        plan = compile_plan(design([BeadRun("b", 9)], CordDesign("c", 0.4), [bead(10, hole_mm=1.4)], None, *ends))
        assert TOGGLE not in codes(plan)


def test_worked_from_the_middle_the_bar_is_where_the_strand_starts() -> None:
    """It is the end that is made last."""
    kinds = [bead(10, hole_mm=1.4), bead(2, "t", hole_mm=1.4)]
    for layout, told in (([BeadRun("b", 9), BeadRun("t", 2)], True), ([BeadRun("t", 2), BeadRun("b", 9)], False)):
        end = End("crimp and clasp", finding="toggle")
        strand = Strand(tuple(layout), End("crimp and clasp"), end, work="from the middle")
        plan = compile_plan(Design("Check light", CordDesign("c", 0.4), tuple(kinds), (strand,)))
        assert (TOGGLE in codes(plan)) == told, layout


@pytest.mark.parametrize(("tail_mm", "told"), [(None, False), (60, False), (40, True)])
def test_a_sliding_knot_must_open_over_the_hand(tail_mm, told) -> None:
    """Each tail slides as far as the knot in it, 25 mm from its end: 192 mm and twice 35 pass a hand of 230 mm, 192 mm
    and twice 15 do not. The hand: 95th percentile of men, Gordon et al. 2012."""
    slide = End("sliding knot", tail_mm=tail_mm)
    plan = compile_plan(design([BeadRun("b", 24)], CordDesign("c", 1.0), [bead(8, hole_mm=2)], None, slide, slide))
    assert ("opens too little" in codes(plan)) == told


@pytest.mark.parametrize(("length_mm", "over"), [(180, ""), (188, "one bead is"), (196, "2 beads are")])
def test_beads_left_over_after_the_last_knot_are_told_with_what_comes_out_even(length_mm, over) -> None:
    """Eight beads to a knot of nothing to speak of: 24, 25 and 26 of 7.5 mm with a knot after every third."""
    cord = CordDesign("c", 0.4, knots=knots(1, 0.01))
    size = Size("length", length_mm)
    plan = compile_plan(design([BeadRun("b", None, 3)], cord, [bead(7.5, hole_mm=0.5)], size, PLAIN, PLAIN))
    told = [warning.text for warning in plan.warnings if warning.code == "beads left over"]
    assert bool(told) == bool(over)
    if over:
        assert f"{over} left over" in told[0]
        assert "24 or 27 would come out even" in told[0]


@pytest.mark.parametrize(("beads", "told"), [(2, True), (3, False)])
def test_french_wire_wants_three_beads_to_knot_beside(beads, told) -> None:
    wire = End("French wire and clasp")
    plan = compile_plan(design([BeadRun("b", beads)], CordDesign("c", 0.4), [bead(6, hole_mm=2)], None, wire, wire))
    assert ("too few beads" in codes(plan)) == told
