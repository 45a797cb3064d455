"""Where new cord can be joined on, and that a fresh cord is the way where it can't be."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.join_place import can_be_joined, join_place
from companion.core.forecast.outlook import CordCheck
from companion.core.journal.events import Confirmed, CutEntered, Started
from companion.core.journal.fold import fold
from companion.core.plan.planner import compile_plan
from companion.core.remedies.evaluation import Baseline
from companion.core.remedies.joining import join
from companion.core.remedies.remedy_words import AFRESH, outcome_words, remedy_line
from companion.core.remedies.search import remedies
from companion.core.values.assumptions import USUAL
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Repeat,
    Size,
    Strand,
)
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.join_words import (
    HOW_TO_JOIN,
    REACHES,
    SHOWS,
    SIDE_BY_SIDE,
    join_advice,
    join_words,
    joint_words,
)
from tests.core.outlooks import forecast
from tests.core.remedies.off_plan import short_of_cord

G, K, S, W, T = Bead("g"), Knot("single"), Bead("s"), Bead("w"), Bead("t")
CORD = CordDesign("silk", 0.45, 1, knots=(("single", KnotNumbers(6, 2)),))
GLASS = BeadKind("g", "Glass", 6, 6, 1.0)  # two cords of 0.45 mm need 0.9 mm, and 0.99 with room
SLATE = BeadKind("s", "Slate", 14, 6, 1.0)
NARROW = BeadKind("w", "Narrow", 20, 6, 0.95)
WIDE_SPACER = BeadKind("t", "Thin ring", 1.5, 6, 3.0)


def begun(plan, steps: int, short_mm: float):
    cut = CutEntered(0, plan.cuts[0].cut_mm - short_mm, "cut")
    return fold([Started(plan.total_steps), cut, *(Confirmed(n) for n in range(1, steps + 1))])


def short(kinds=(GLASS, SLATE), layout=(G, K, G, K, S, K), done=12, **cord):
    made = replace(CORD, **cord)
    plan = compile_plan(Design("Light", made, kinds, (Strand((Repeat(10, layout),)),), Size("length", 350.0)))
    piece = begun(plan, done, 340 * made.layers)
    outlook = forecast(plan, piece)
    assert outlook.entries[0].cord.verdict == "runs out"
    return plan, piece, outlook


def test_the_place_to_join_is_inside_the_longest_bead_that_is_still_reached() -> None:
    plan, _, outlook = short()
    place = join_place(plan, outlook)
    assert place.bead == "s"
    assert 12 < place.step < outlook.entries[0].cord.step
    words = f"Join it inside the slate of step {place.step}: its hole takes two cords"
    assert join_words(plan, outlook) == words


def test_a_longer_bead_that_two_cords_only_just_pass_takes_no_join() -> None:
    plan, _, outlook = short((GLASS, SLATE, NARROW), (G, K, W, K, S, K))
    assert join_place(plan, outlook).bead == "s"


def test_a_spacer_shorter_than_a_knot_hides_no_join() -> None:
    plan, _, outlook = short((NARROW, WIDE_SPACER), (W, K, T, K))
    assert join_place(plan, outlook) is None


def test_where_no_bead_takes_both_cords_a_fresh_one_is_the_way() -> None:
    plan, piece, outlook = short((NARROW,), (W, K))
    found = remedies(plan, piece, outlook)
    assert not any(one.join for one in found)
    fresh = next(one for one in found if one.family == ("join",))
    assert fresh.advice
    assert fresh.what == "No bead still to come takes two cords: start afresh with a longer cord"


def test_doubled_cord_needs_room_for_four() -> None:
    plan, _, outlook = short((replace(GLASS, hole_mm=1.2), SLATE), layers=2)
    assert join_place(plan, outlook).bead == "g"
    assert "four cords" in join_words(plan, outlook)


def test_the_advice_says_whether_it_is_needed_where_and_how() -> None:
    plan, _, outlook = short((replace(GLASS, hole_mm=1.2), SLATE), layers=2)
    assert join_advice(plan, outlook).endswith(f"{SIDE_BY_SIDE} {HOW_TO_JOIN}")
    assert REACHES not in join_advice(plan, outlook)
    entry = replace(outlook.entries[0], cord=replace(outlook.entries[0].cord, verdict="short to hold"))
    assert join_advice(plan, replace(outlook, entries=(entry,))).startswith(REACHES)
    plan, _, outlook = short(material="leather")
    assert SIDE_BY_SIDE not in join_advice(plan, outlook)


def test_a_cord_that_reaches_is_never_told_to_start_afresh() -> None:
    plan, _, outlook = short((replace(GLASS, hole_mm=0.8), replace(SLATE, hole_mm=0.8)), layers=2)
    assert "start afresh" in join_advice(plan, outlook)
    entry = replace(outlook.entries[0], cord=replace(outlook.entries[0].cord, verdict="enough"))
    assert "afresh" not in join_advice(plan, replace(outlook, entries=(entry,)))


def test_no_join_is_hidden_where_the_closure_s_cord_comes_back() -> None:
    """French wire runs back through the last three beads: no room is left in them for a third cord."""
    pearl, end = BeadKind("p", "Pearl", 7, 7, 1.0), End("French wire and clasp")
    silk = CordDesign("silk", 0.45, knots=(("single", KnotNumbers(6, 2)),))
    plan = compile_plan(Design("Light", silk, (pearl,), (Strand((Repeat(40, (Bead("p"), K)),), end, end),), None))
    outlook = forecast(plan, begun(plan, 12, 200))
    place = join_place(plan, outlook)
    assert place is not None
    steps = plan.strands[0].steps
    assert sum(len(step.beads) for step in steps[place.step :]) >= 3


def test_beginning_afresh_promises_no_length_and_saves_no_cord() -> None:
    plan, piece, outlook = short((replace(GLASS, hole_mm=0.8), replace(SLATE, hole_mm=0.8)), layers=2)
    fresh = next(one for one in remedies(plan, piece, outlook) if one.afresh)
    assert remedy_line(plan, fresh).endswith(f"start afresh with a longer cord. {AFRESH}")
    assert "Saves" not in outcome_words(plan, fresh)


def test_a_hole_that_is_not_given_may_take_them() -> None:
    plan, _, outlook = short((replace(GLASS, hole_mm=None),), (G, K) * 4)
    assert join_words(plan, outlook).endswith(", if two cords go through: try it first")


@pytest.mark.parametrize(("hide", "named"), [("leather", "Leather"), ("suede", "Suede")])
def test_a_hide_is_glued_or_crimped(hide, named) -> None:
    plan, piece, outlook = short(material=hide)
    assert join_words(plan, outlook).startswith(f"{named} is too thick to join inside a bead: glue or crimp the joint")
    assert any(one.join for one in remedies(plan, piece, outlook))


def test_it_is_said_again_at_that_bead() -> None:
    plan, _, outlook = short()
    place = join_place(plan, outlook)
    for done in (place.step - 2, place.step - 1, place.step):
        now = forecast(plan, begun(plan, done, 340))
        said = cord_line(plan, now).action
        assert (said == "Join the new cord in this step, inside the slate.") == (done == place.step - 1), done


def test_with_the_last_knot_tied_nothing_is_joined_into_a_next_bead() -> None:
    plan, _, outlook = short()
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    entry = replace(outlook.entries[0], done=last, cord=CordCheck("short to hold", 0.0, None, 30.0, 0.9))
    outlook = replace(outlook, entries=(entry,))
    assert not can_be_joined(plan, outlook)
    found = remedies(plan, begun(plan, last, 340), outlook)
    assert not any(one.family == ("join",) for one in found)


def test_cord_is_joined_with_what_is_missing() -> None:
    plan, piece, outlook = short()
    one = next(one for one in remedies(plan, piece, outlook) if one.join)
    assert "Join it inside the slate of step " in one.text
    assert one.cord_mm == pytest.approx(-outlook.entries[0].cord.short_mm)


def test_four_cords_through_a_hole_of_one_millimetre_are_not_asked_for() -> None:
    _, _, found = short_of_cord()
    assert not any(one.join for one in found)


def test_a_cord_that_is_only_short_to_hold_is_gone_on_with_first_and_begun_again_last() -> None:
    """The same on the screen, in the ways out, and where new cord would be joined on."""
    plan, outlook, found = short_of_cord(0.8, "short to hold")
    first = found[0]
    assert first.family == ("hold",)
    assert first.text.startswith("Go on, for the cord reaches the last knot.")
    assert "Little is left for the closure: make it short, and trim last of all" in first.text
    said = str(cord_line(plan, outlook))  # what stands above the ways out: tweezers are told of once
    assert "Go on with tweezers" in said
    assert "tweezers" not in first.text
    assert outcome_words(plan, first) == "Nothing is taken apart."
    assert [one.afresh for one in found] == sorted(one.afresh for one in found)


def test_a_joint_that_no_bead_hides_is_told_of_and_one_inside_a_bead_is_not() -> None:
    plan, _, outlook = short((replace(GLASS, hole_mm=0.8), replace(SLATE, hole_mm=0.8)), layers=2)
    assert joint_words(plan, outlook) == SHOWS
    plan, piece, outlook = short((replace(GLASS, hole_mm=1.2), SLATE), layers=2)
    assert joint_words(plan, outlook) == ""
    (joined,) = join(Baseline(plan, piece, outlook, USUAL, False))
    assert joined.text.endswith(HOW_TO_JOIN)
