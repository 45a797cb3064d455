"""Worked examples and rules of the trade from outside, each with its source, against what the companion computes.

Where it says "common practice, no source" or "own computation" that is all there is; nothing here is invented.
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from companion.core.cord.cord import cord_of, estimate
from companion.core.cord.holes import holds, least_hole_mm, packing_ratio
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.cut import arm_rule
from companion.core.plan.planner import compile_plan
from companion.core.values.design import (
    Bead,
    BeadKind,
    BeadRun,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Repeat,
    Size,
    Space,
    Strand,
)
from companion.core.words.trade_rules import three_beads_rule_mm
from tests.core.outlooks import forecast

INCH = 25.4
PLAIN = End("plain tail", tail_mm=60)
ONE = KnotNumbers


def design(layout, cord, beads, size=None, start=PLAIN, end=PLAIN) -> Design:
    return Design("Check light", cord, tuple(beads), (Strand(tuple(layout), start, end),), size)


def bead(length_mm: float, key: str = "b", **more: float) -> BeadKind:
    return BeadKind(key, key, length_mm, more.get("diameter_mm", length_mm), more.get("hole_mm"))


def knots(take_up_mm: float, length_mm: float):
    return (("single", ONE(take_up_mm, length_mm)),)


# -- take-up and length of a knot --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("kind", "take_up"), [("single", 10.10), ("double", 17.3), ("triple", 24.5)])
def test_take_up_of_ideal_rope(kind, take_up) -> None:
    """Own minimisation of tight open knots; ropelength slope of Gilbert's line, Knot Atlas "Ideal Knots". 25 %."""
    figures = estimate(CordDesign("c", 1.0), kind)
    assert figures.take_up_mm == pytest.approx(take_up, abs=0.15)
    assert figures.take_up_sd_mm == pytest.approx(0.25 * take_up, rel=0.01)


def test_ropelength_slope_per_extra_pass() -> None:
    """Closed 3_1, 5_1, 7_1 lie on 5.71 + 3.57 n (B. Gilbert, Knot Atlas): two crossings, 7.14 d, an extra pass."""
    one, two, three = (estimate(CordDesign("c", 1.0), kind).take_up_mm for kind in ("single", "double", "triple"))
    assert two - one == pytest.approx(2 * 3.57, abs=0.15)
    assert three - two == pytest.approx(2 * 3.57, abs=0.15)


@pytest.mark.parametrize(("kind", "low", "high"), [("single", 2.3, 3.34), ("double", 4.4, 5.33), ("triple", 6.5, 7.51)])
def test_knot_length_between_contacts_and_body(kind, low, high) -> None:
    """Axial span of the contacts and whole body of tight open knots: own computation, in the family of Pieranski et
    al., New J. Phys. 3 (2001) 10."""
    assert low < estimate(CordDesign("c", 1.0), kind).length_mm < high


def test_two_layers_knotted_together() -> None:
    """Per layer 13.6 d at best, other lays to 15.1; body 4.6 to 4.7: own minimisation of four lays."""
    figures = estimate(CordDesign("c", 1.0, layers=2), "single")
    assert 13.6 <= figures.take_up_mm <= 15.1
    assert figures.length_mm < 4.7


def test_a_quarter_inch_for_waxed_linen() -> None:
    """8 in of waxed linen with one overhand measures 7 3/4 in: common practice, no source. 0.6 mm cord."""
    taken = (8 - 7.75) * INCH
    figures = estimate(CordDesign("linen", 0.6, material="waxed linen"), "single")
    assert figures.take_up_mm == pytest.approx(taken, abs=0.3)
    assert INCH / taken == 4  # four such knots swallow an inch


def test_order_of_knots_and_stiffness() -> None:
    """A double passes the end once more, a triple twice more; stiffer cord takes more: common practice, no source."""
    leather = estimate(CordDesign("l", 2.0, material="leather"), "single")
    cotton = estimate(CordDesign("c", 2.0, material="cotton"), "single")
    assert leather.take_up_mm > cotton.take_up_mm
    assert leather.take_up_sd_mm / leather.take_up_mm > cotton.take_up_sd_mm / cotton.take_up_mm


def test_two_overhands_are_two_singles_and_no_wider() -> None:
    """Two overhands one on the other sit side by side: common practice, no source."""
    cord = CordDesign("c", 1.0, knots=knots(9, 3))
    one = compile_plan(design([Bead("b"), Knot("single")], cord, [bead(6)])).strands[0]
    two = compile_plan(design([Bead("b"), Knot("single"), Knot("single")], cord, [bead(6)])).strands[0]
    assert two.take_up_mm == 2 * one.take_up_mm
    assert two.strand_length_mm - one.strand_length_mm == pytest.approx(3)
    assert holds("single", 1.0, 1, 2.9) == "holds"
    assert holds("single", 1.0, 1, 3.1) == "slips"


def test_extra_passes_hardly_widen_a_knot() -> None:
    """Width across of tight open knots, 2.9-3.05, 3.0-3.2, 3.0-3.2 d (own computation): a wide hole stays too wide."""
    assert holds("double", 1.0, 1, 3.0) == holds("triple", 1.0, 1, 3.0) == "holds"
    assert holds("double", 1.0, 1, 3.4) == holds("triple", 1.0, 1, 3.4) == "test"
    assert holds("triple", 1.0, 1, 4.3) == "slips"


# -- holes ----------------------------------------------------------------------------------------------------------


def test_cords_in_a_hole() -> None:
    """Circles packed in a circle: S. Kravitz, Math. Mag. 40 (1967); Graham (1968), Pirl (1969). n = 1 … 8."""
    table = [1, 2, 2.1547, 2.4142, 2.7013, 3, 3, 3.3048]
    assert [packing_ratio(n) for n in range(1, 9)] == pytest.approx(table, abs=5e-4)


def test_hole_for_two_and_three_passes_of_0_7_mm() -> None:
    """From the same packings."""
    assert least_hole_mm(0.7, 2) == pytest.approx(1.40, abs=0.005)
    assert least_hole_mm(0.7, 3) == pytest.approx(1.51, abs=0.005)


def test_packings_beyond_eight_are_no_smaller_than_the_area_allows() -> None:
    """n circles of area 1 in a circle of area K² can fill no more than it: a bound, whatever the remembered figures."""
    for n in range(9, 40):
        assert packing_ratio(n) > np.sqrt(n / 0.9069)  # the densest packing of the plane


def test_doubled_cord_and_closure_passes_reach_the_hole_check() -> None:
    """French wire takes the cord back through the end beads: four cords of 0.5 mm need 1.21 mm (2.4142 x 0.5), with no
    room to spare (S. Kravitz's ratios are zero clearance), and 1.33 mm with a tenth of it."""
    wire = End("French wire and clasp")
    cord = CordDesign("c", 0.5, layers=2, knots=knots(6, 2))
    layout = [Bead("b"), Repeat(9, (Knot("single"), Bead("b")))]
    for hole, code in ((1.15, ["hole too small"]), (1.22, ["hole tight"]), (1.34, [])):
        plan = compile_plan(design(layout, cord, [bead(6, hole_mm=hole)], None, wire, wire))
        assert [warning.code for warning in plan.warnings] == code


# -- counts and lengths ---------------------------------------------------------------------------------------------

CHARTS = {  # beads on a 16 in strand: International Gem Society; Fire Mountain "Beads per Inch"; K. Meador's chart
    4: (101, 102, (100, 102, 100)), 6: (67, 68, (66, 67)), 8: (50, 51, (50, 50.8, 50)), 10: (40, 41, (40, 40.6, 41)),
    12: (33, 34, (33, 33.9, 34)),
}  # fmt: skip


@pytest.mark.parametrize("size_mm", CHARTS)
def test_beads_on_a_16_in_strand(size_mm) -> None:
    whole, nearest, charts = CHARTS[size_mm]
    cord = CordDesign("c", 0.35)
    sized = Size("length", 16 * INCH)
    plan = compile_plan(design([BeadRun("b", None)], cord, [bead(size_mm)], sized))
    assert int(16 * INCH // size_mm) == whole
    assert plan.fit == nearest
    assert all(abs(plan.fit - chart) <= 2 for chart in charts)
    fewer, more = plan.fit_others
    assert more.finished_mm - plan.finished_length_mm == pytest.approx(size_mm)
    assert plan.finished_length_mm - fewer.finished_mm == pytest.approx(size_mm)


def test_bracelet_target() -> None:
    """Wrist 6 1/2 in, ease 3/4 in, 8 mm beads: 209.28; the rule of three beads 208.15 (Fire Mountain, "Ask the
    Experts" 920b). The offset of a closed curve, also summed numerically here."""
    wrist = Size("wrist", 6.5 * INCH, 0.75 * INCH)
    cord = CordDesign("c", 0.5, knots=knots(5, 1.5))
    plan = compile_plan(design([Repeat(None, (Bead("b"), Knot("single")))], cord, [bead(8)], wrist))
    assert plan.target_mm == pytest.approx(209.28, abs=0.01)
    assert three_beads_rule_mm(plan) == pytest.approx(208.15, abs=0.01)
    ring = np.linspace(0, 2 * pi, 20001)
    radius = (6.5 + 0.75) * INCH / (2 * pi) + 4
    around = np.hypot(np.diff(radius * np.cos(ring)), np.diff(radius * np.sin(ring))).sum()
    assert plan.target_mm == pytest.approx(around, abs=0.01)


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


# -- how much cord --------------------------------------------------------------------------------------------------


def test_arm_rule() -> None:
    """A bracelet one arm, a necklace two, twice that doubled: common practice, no source. The arm: wrist to armpit, 444
    and 481 mm, medians of Gordon et al. 2012."""
    cord = CordDesign("c", 0.45, layers=2, knots=knots(6, 2))
    for kind, size_mm, arms in (("wrist", 165, 2), ("neck", 400, 4), ("length", 180, 2), ("length", 450, 4)):
        plan = compile_plan(design([Repeat(None, (Bead("b"), Knot("single")))], cord, [bead(6)], Size(kind, size_mm)))
        rule = arm_rule(plan, 2)
        assert (rule.arms, rule.low_mm, rule.high_mm) == (arms, arms * 444, arms * 481)
        assert 0.6 * rule.low_mm < plan.cuts[0].cut_mm < 1.7 * rule.high_mm  # a sanity bound, no more


def test_six_times_the_finished_length_of_doubled_silk() -> None:
    """Knot at every bead, 18 in, leave 6 in at the start: cut 6 x, 9 ft. Fire Mountain Gems and Beads, tutorial 6919,
    "The Knotted Necklace and Bracelet". The plan's need is half of it to all of it."""
    cord = CordDesign("silk", 0.45, layers=2, material="silk", worked_with="needle")
    start = End("plain tail", tail_mm=6 * INCH)
    plan = compile_plan(
        design([Repeat(None, (Bead("b"), Knot("single")))], cord, [bead(6)], Size("length", 18 * INCH), start)
    )
    need_mm = plan.strands[0].need_mm * 2
    assert 0.5 * 9 * 304.8 <= need_mm <= 9 * 304.8


def test_twice_the_finished_length_of_single_silk() -> None:
    """Start with twice the finished length: PDX Knitterati, "Knit? Knot!"; need 1.4 to 2.5 times."""
    cord = CordDesign("silk", 0.45, material="silk")
    plan = compile_plan(design([Repeat(None, (Bead("b"), Knot("single")))], cord, [bead(6)], Size("length", 18 * INCH)))
    assert 1.4 <= plan.strands[0].need_mm / plan.finished_length_mm <= 2.5


def test_sixty_inches_of_pearls_used_107() -> None:
    """60 in knotted, 120 in of silk cut, 13 in left: L. Podobnik, "Knotted Pearls Not So Easy" (blog, 2013). 7 mm
    pearls and 0.6 mm silk assumed: take-up and ends, 47 in, within 15 %."""
    cord = CordDesign("silk", 0.6, material="silk", knots=knots(6.1, 1.5))
    fifty = End("plain tail", tail_mm=50)
    layout = [Repeat(None, (Bead("b"), Knot("single")))]
    plan = compile_plan(design(layout, cord, [bead(7)], Size("length", 60 * INCH), fifty, fifty))
    strand = plan.strands[0]
    beyond = strand.take_up_mm + strand.start_tail_mm + strand.end_tail_mm
    assert beyond == pytest.approx(47 * INCH, rel=0.15)
    piece = Piece(plan.total_steps, plan.total_steps - 1, cuts=(CutEntered(0, 120 * INCH, "120 in"),))
    left = forecast(plan, piece).entries[0].free_now.mean_mm - strand.end_tail_mm
    assert left == pytest.approx(13 * INCH, abs=0.15 * 47 * INCH)


def test_a_magazine_necklace_in_leather() -> None:
    """Two 6 ft pieces of 1 mm leather folded (914.4 mm a layer), both cords knotted on either side of 20 beads, tails
    1 1/2 in, knotted until 3 1/2 in short of 20: L. Augsburg, "Knots and dots", BeadStyle, July 2004."""
    cord = CordDesign("leather", 1.0, layers=2, material="leather")
    tail = End("plain tail", tail_mm=1.5 * INCH)
    one_knot = cord_of(cord).single
    spare = (20 - 3.5) * INCH - 20 * 11 - 21 * one_knot.length_mm
    layout = [Knot("single"), Repeat(20, (Bead("b"), Knot("single"))), Space(spare)]
    plan = compile_plan(design(layout, cord, [bead(11)], None, tail, tail))
    strand = plan.strands[0]
    assert strand.strand_length_mm == pytest.approx(419.1)
    assert strand.start_tail_mm + strand.strand_length_mm + strand.take_up_mm + strand.end_tail_mm <= 914.4
    assert one_knot.length_mm <= 9.5


def test_finished_length_and_a_foot_fails_when_knotted() -> None:
    """The rule "finished + 12 in" (Dava Bead, "Endless Strand" tip) is for unknotted strands: 65 knots of 6.1 mm
    swallow 396.5 mm, and 304.8 mm would do for 49."""
    cord = CordDesign("linen", 0.6, knots=knots(6.1, 1.8))
    no_tail = End("plain tail", tail_mm=0)
    plan = compile_plan(design([Repeat(65, (Bead("b"), Knot("single")))], cord, [bead(6)], None, no_tail, no_tail))
    assert plan.strands[0].take_up_mm == pytest.approx(396.5)
    rule_mm = plan.finished_length_mm + 12 * INCH
    assert plan.cuts[0].cut_mm > rule_mm
    outlook = forecast(plan, Piece(plan.total_steps, 0, cuts=(CutEntered(0, rule_mm, "rule"),)))
    cord_check = outlook.entries[0].cord
    assert cord_check.verdict == "runs out"
    strand = plan.strands[0]
    bare = plan.strands[0].strand_length_mm / 65
    last_whole = int((rule_mm - strand.working_allowance_mm) // (6.1 + bare))
    before = sum(step.kind == "start" for step in strand.steps)
    assert cord_check.step == last_whole + 1 + before  # the knot after the last that fits, behind the start's steps
    assert 49 - last_whole < 65 * 0.25


def test_macrame_takes_more_than_knots_between_beads() -> None:
    """Ends 3 1/2 to 4 times the piece, folded: Macrame Lovers, "Measuring Cord Lengths": an upper bound only."""
    cord = CordDesign("c", 1.0)
    plan = compile_plan(design([Repeat(60, (Bead("b"), Knot("single")))], cord, [bead(6)]))
    assert plan.strands[0].need_mm / plan.finished_length_mm < 3.5


def test_french_wire_takes_three_eighths_of_an_inch() -> None:
    """Stuller bench article, "Use of French Wire When Stringing on Silk"."""
    wire = End("French wire and clasp")
    plan = compile_plan(
        design([Repeat(9, (Bead("b"), Knot("single")))], CordDesign("c", 0.4), [bead(6)], None, wire, wire)
    )
    assert plan.strands[0].closure_length_mm / 2 == pytest.approx(0.375 * INCH, abs=INCH / 16)


def test_a_sliding_knot_takes_a_scrap() -> None:
    """Scraps of 5 to 6 in and longer will do: common practice, no source."""
    slide = End("sliding knot")
    plan = compile_plan(design([Bead("b"), Knot("single")], CordDesign("c", 1.0), [bead(6)], None, slide, slide))
    (extra,) = plan.extra_cords
    assert extra.cut_mm >= 5 * INCH


# -- worked examples of our own, two independent ways ----------------------------------------------------------------


def small_plan():
    cord = CordDesign("c", 0.6, layers=2, knots=knots(6, 2))
    end = End("plain tail", tail_mm=60)
    layout = [Repeat(29, (Bead("b"), Knot("single"))), Bead("b")]
    return compile_plan(design(layout, cord, [bead(6)], None, end, end))


def test_a_small_plan_by_hand() -> None:
    """30 beads of 6, 29 knots (2 long, 6 taken), two layers, tails 60, allowance 60: strand 238, take-up 174 a layer,
    1184 without margin; after bead 10 and its knot 200 used, 392 free a layer (own arithmetic)."""
    strand = small_plan().strands[0]
    assert strand.strand_length_mm == pytest.approx(238, abs=1e-9)
    assert strand.take_up_mm == pytest.approx(174, abs=1e-9)
    assert strand.cut_mm - 2 * strand.margin_mm == pytest.approx(1184, abs=1e-9)
    tenth = [step for step in strand.steps if step.kind == "string"][9]
    assert tenth.cord_used_mm == pytest.approx(200, abs=1e-9)
    assert tenth.free_cord_mm - strand.margin_mm == pytest.approx(392, abs=1e-9)


def test_two_sd_over_the_need_leave_2_275_per_cent() -> None:
    """The normal upper tail at 2 (NIST/SEMATECH e-Handbook 1.3.6.7.1); Student's with its degrees lies just above."""
    from companion.core.maths.distributions import student_sf
    from companion.core.plan.cut import run_out_risk

    strand = small_plan().strands[0]
    risk = run_out_risk(strand, strand.need_mm + 2 * strand.need_sd_mm)
    assert 0.022750 < risk < 0.03
    assert student_sf(2, 1e9) == pytest.approx(0.0227501, abs=1e-7)
    assert risk == pytest.approx(student_sf(2, strand.need_degrees), abs=1e-12)


def test_one_reading_updates_as_the_formula_says() -> None:
    """Knot mean N(4, 0.16), ten knots read 43.0, scatter 0.5, reading u 0.6: 80 knots 340.758218 sd 11.875079 (own
    computation, by formula and by conditioning all 80). Everything else switched off."""
    from dataclasses import replace

    from companion.core.values.assumptions import USUAL

    quiet = replace(
        USUAL, piece_cv=0, tension_walk_by_end_cv=0, strand_scale_cv=0, knot_correlation=0, knot_scatter_cv=0.5 / 4,
        strand_handling_mm=0.6, estimate_length_cv=0.1,
    )  # fmt: skip
    diameter = 4 / 2.9
    plan = compile_plan(design([Repeat(80, (Knot("single"),))], CordDesign("c", diameter), []), assumptions=quiet)
    start = next(step.number for step in plan.strands[0].steps if step.kind == "string") - 1
    reading = Measured("strand", start + 10, 43.0, "43 mm", ruler_step_mm=0.0)
    outlook = forecast(plan, Piece(plan.total_steps, start + 10, readings=(reading,)), quiet)
    assert outlook.finished.mean_mm == pytest.approx(340.758218451750, abs=1e-9)
    assert outlook.finished.sd_mm == pytest.approx(11.875078835481, abs=1e-9)
