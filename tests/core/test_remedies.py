"""What to do: every remedy leaves what is made alone, keeps a mirror where it says so, and gives what it promises."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.core.closures.table import CLOSURES
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Fault
from companion.core.journal.events import CutEntered, Jumped, Measured, Started
from companion.core.journal.fold import after, fold, undo_of
from companion.core.journal.piece import Piece
from companion.core.plan.longest import strand_groups
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import changed_plan
from companion.core.remedies.going_back import way_back
from companion.core.remedies.ranking import MOST_LISTED, ranked
from companion.core.remedies.remaining_layout import RemainingLayout, Side, longest_palindrome
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_words import meaning
from companion.core.remedies.search import remedies
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Mirror,
    Repeat,
    Size,
    Space,
    Strand,
)
from tests.core.random_designs import random_design
from tests.core.test_planner_second_way import check_identities

G, S, K, D = Bead("g"), Bead("s"), Knot("single"), Knot("double")
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 2, 5, 1.0))
CORD = CordDesign(
    "silk", 0.45, 2, "silk", knots=(("single", KnotNumbers(6, 2)), ("double", KnotNumbers(10, 3)))
)  # a single knot of two layers is 1.85 mm across: it holds both beads
CLASP = End("bead tip and clasp")
SIDE = (Repeat(8, (G, K)), S, K)


def planned(layout, length_mm, opened="along", end=End(), kinds=KINDS, tolerance_mm=3.0):  # noqa: B008
    strand = Strand(tuple(layout), end if end.closure in ("bead tip and clasp",) else End(), end, "", opened)
    return compile_plan(Design("Light", CORD, kinds, (strand,), Size("length", length_mm, 0, tolerance_mm)))


def what_to_do(plan, done, cut_share=1.15):
    """A piece with one reading that is as planned, and cord to spare; what is offered where its length is off."""
    cuts = (CutEntered(0, cut_share * plan.cuts[0].cut_mm, ""),)
    entry, number = plan.place(done) if done else (0, 0)
    here_mm = plan.strands[entry].steps[number - 1].strand_mm if number else 0.0
    readings = (Measured("strand", done, here_mm, ""),) if here_mm else ()
    piece = Piece(plan.total_steps, done, cuts=cuts, readings=readings)
    outlook = Forecaster(plan, faults=True).outlook(piece)
    off = plan.target_mm is not None and abs(plan.target_mm - outlook.finished.mean_mm) > plan.tolerance_mm
    outlook = replace(outlook, verdict="off" if off else outlook.verdict)
    return piece, outlook, remedies(plan, piece, outlook)


def aimed(plan, length_mm):
    """The plan with another target, so that the piece is off without any reading."""
    return replace(plan, target_mm=length_mm, size=Size("length", length_mm, 0, 3.0), tolerance_mm=3.0)


def whole(plan, entries):
    first, *second = (plan.strands[entry].elements for entry in entries)
    return (*reversed(second[0]), *first) if second else first


# -- of any design ----------------------------------------------------------------------------------------------------


@settings(max_examples=25, deadline=None)
@given(
    seed=st.integers(0, 10_000),
    mirrored=st.booleans(),
    share=st.floats(0, 0.95),
    off_mm=st.sampled_from([-40, -12, -5, 5, 12, 40]),
)
def test_whatever_is_chosen_leaves_the_sums_right(seed, mirrored, share, off_mm) -> None:
    design = random_design(seed)
    if mirrored:
        strands = tuple(replace(one, layout=(Mirror(one.layout, one.layout[:1]),)) for one in design.strands)
        design = replace(design, strands=strands)
    design = replace(design, size=design.size or Size("length", 300.0))
    old = compile_plan(design)
    plan = aimed(old, old.finished_length_mm + off_mm)
    piece, _, found = what_to_do(plan, int(share * plan.total_steps), cut_share=0.97)
    assert len(found) <= MOST_LISTED
    for remedy in (one for one in found if one.rests):
        new = changed_plan(plan, (remedy.event(0),))
        check_identities(new)
        assert [(s.text, s.elements, s.strand_mm) for s in steps(new)[: piece.done]] == [
            (s.text, s.elements, s.strand_mm) for s in steps(plan)[: piece.done]
        ]
        cost_mm = sum(mine.need_mm - was.need_mm for mine, was in zip(new.strands, plan.strands, strict=True))
        assert remedy.cord_mm == pytest.approx(cost_mm, abs=1e-6)
        check_as_a_fresh_plan(design, plan, new, remedy)
        for group in strand_groups(plan.strands):
            check_mirror(whole(plan, group), whole(new, group), remedy)


def steps(plan):
    return [step for strand in plan.strands for step in strand.steps]


def check_as_a_fresh_plan(design, plan, new, remedy) -> None:
    """Length and cord of every strand as a design has them that was laid out so from the first."""
    groups = strand_groups(new.strands)
    laid = tuple(replace(s, layout=whole(new, g)) for s, g in zip(design.strands, groups, strict=True))
    fresh = compile_plan(replace(design, strands=laid, size=plan.size))
    for group in groups:
        for figure in ("strand_length_mm", "take_up_mm"):
            mine, theirs = (sum(getattr(one.strands[n], figure) for n in group) for one in (new, fresh))
            assert mine == pytest.approx(theirs, abs=1e-6)
        assert whole(new, group) == whole(fresh, group)
    assert new.longest == fresh.longest
    closure_mm = remedy.closure_mm if remedy.rests[0].entry in new.longest else 0.0
    assert new.finished_length_mm == pytest.approx(fresh.finished_length_mm + closure_mm, abs=1e-6)


def check_mirror(old, new, remedy) -> None:
    """What read alike from both ends still does, unless the remedy says that the two sides will differ.

    A bead or bare cord before the closure stands beside the mirror.
    """
    mirror = RemainingLayout((Side(0, tuple(old), 0, True),)).mirror
    if remedy.uneven or mirror is None:
        return
    begin, end = mirror
    beside = range(4) if {"bare", "spacer"} & set(remedy.family) else range(1)
    after = len(new) - (len(old) - end)
    parts = [part for more in beside for part in (new[begin : after - more], new[begin + more : after])]
    assert any(part == part[::-1] for part in parts)


@given(st.lists(st.sampled_from("ab"), max_size=25))
def test_the_longest_part_that_reads_alike(items) -> None:
    """Against every part, one by one."""
    begin, end = longest_palindrome(items)
    assert items[begin:end] == items[begin:end][::-1]
    parts = [(b, e) for b in range(len(items)) for e in range(b, len(items) + 1)]
    assert end - begin == max((e - b for b, e in parts if items[b:e] == items[b:e][::-1]), default=0)


# -- mirrors ----------------------------------------------------------------------------------------------------------


def mirror_plan(opened="along"):
    return planned((K, Mirror(SIDE, (G,)), K), 178.0, opened)  # 142 + 14 … as it comes: the target is set by `aimed`


def test_before_the_middle_a_mirror_changes_in_pairs() -> None:
    plan = mirror_plan()
    off = aimed(plan, plan.finished_length_mm + 16)
    _, _, found = what_to_do(off, 6)
    one = next(one for one in found if one.family == ("repeats",))
    assert one.text.startswith("One more of «glass, then a single knot» on each side: ")
    assert not one.uneven
    new = changed_plan(off, (one.event(0),)).strands[0].elements
    assert new == new[::-1]
    assert new.count(G) == plan.strands[0].elements.count(G) + 2
    middle = len(new) // 2
    assert new[middle - 2 : middle + 3] == (S, K, G, K, S)  # the middle and what stands beside it are as they were


def test_past_the_middle_it_says_that_the_sides_will_differ_and_ranks_it_lower() -> None:
    plan = mirror_plan()
    off = aimed(plan, plan.finished_length_mm + 8)
    _, _, found = what_to_do(off, 14)
    number = next(n for n, one in enumerate(found) if one.family == ("repeats",))
    assert found[number].uneven
    assert "; the two sides will then differ: it would finish at " in found[number].text
    assert all(one.p_in_tolerance < found[number].p_in_tolerance + 0.3 for one in found[:number])
    assert number > 0
    assert not found[0].uneven


def test_sides_worked_from_the_middle_change_in_pairs() -> None:
    plan = mirror_plan("from the middle")
    off = aimed(plan, plan.finished_length_mm - 16)
    _, _, found = what_to_do(off, 4)
    one = next(one for one in found if one.family == ("repeats",))
    assert one.text.startswith("One fewer of «glass, then a single knot» on each side")
    assert {rest.entry for rest in one.rests} == {0, 1}
    new = changed_plan(off, (one.event(0),))
    elements = whole(new, (0, 1))
    assert elements == elements[::-1]
    assert [len(strand.elements) for strand in new.strands] == [len(s.elements) - 2 for s in plan.strands]


def test_the_second_side_alone_can_change_when_the_first_is_made() -> None:
    plan = mirror_plan("from the middle")
    off = aimed(plan, plan.finished_length_mm - 8)
    done = len(plan.strands[0].steps) + 3
    _, _, found = what_to_do(off, done)
    assert all(rest.entry == 1 for one in found for rest in one.rests)
    assert any(one.uneven for one in found)


def test_the_same_beads_over_and_over_promise_no_mirror() -> None:
    plan = planned((Repeat(20, (K, G)), K), 162.0)
    assert RemainingLayout.of(plan, Piece(plan.total_steps, 0), plan.longest).mirror is None
    _, _, found = what_to_do(aimed(plan, 170.0), 12)
    assert not any(one.uneven for one in found)


# -- each sort --------------------------------------------------------------------------------------------------------


def family(found, *names):
    return next((one for one in found if one.family == names), None)


def test_two_and_three_more_when_it_is_far_off() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    for more, word in ((2, "Two"), (3, "Three")):
        _, _, found = what_to_do(aimed(plan, 200.0 + 8 * more), 10)
        assert family(found, "repeats").text.startswith(f"{word} more of «glass, then a single knot»")


def test_a_repeat_of_several_steps_changes_as_a_whole() -> None:
    plan = planned((Repeat(8, (G, K, G, K, S, K)),), 160.0)
    _, _, found = what_to_do(aimed(plan, 180.0), 7)
    one = family(found, "repeats")
    assert len(one.rests[0].elements) - len(plan.strands[0].elements) + one.rests[0].made == 6
    assert one.rests[0].elements[:6] in {(G, K, G, K, S, K), (G, K, S, K, G, K), (S, K, G, K, G, K)}


def test_doubles_for_singles_only_as_many_as_bring_the_length() -> None:
    """A double is 1 mm longer than a single: twelve for 12 mm, and 4 + 1 mm of cord each."""
    plan = planned((Repeat(25, (S, K)),), 100.0)
    _, _, found = what_to_do(aimed(plan, 105.0), 8, cut_share=1.2)
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
        for one in what_to_do(aimed(plan, plan.finished_length_mm + off_mm), 2)[2]:
            new = changed_plan(plan, (one.event(0),)).strands[0].elements
            assert not {(K, Bead("w")), (Bead("w"), K)} & set(pairwise(new))


def test_closures_give_as_much_as_their_kind_can() -> None:
    plan = planned((Repeat(25, (G, K)),), 224.0, end=CLASP)
    one = family(what_to_do(aimed(plan, plan.finished_length_mm + 5), 10)[2], "closure")
    assert one.text.startswith("A closure 5 mm longer (a longer clasp, or a ring): ")
    assert one.finished_mm == pytest.approx(plan.finished_length_mm + 5, abs=0.01)
    assert one.closure_mm == pytest.approx(5, abs=0.01)
    far = family(what_to_do(aimed(plan, plan.finished_length_mm - 7), 10)[2], "closure")
    assert far.closure_mm == pytest.approx(-CLOSURES["bead tip and clasp"].gives.shorter_mm)
    tail = planned((Repeat(25, (G, K)),), 200.0)
    assert not any("closure" in one.family for one in what_to_do(aimed(tail, 206.0), 10)[2])


def test_a_longer_shank_takes_cord() -> None:
    """Out to the button and back again: two of cord for each mm."""
    end = End("loop and button")
    layout = (Repeat(25, (G, K)),)
    plan = compile_plan(Design("Light", CORD, KINDS, (Strand(layout, end, end),), Size("length", 222.0)))
    one = family(what_to_do(aimed(plan, plan.finished_length_mm + 6), 10)[2], "closure")
    assert one.text.startswith("A closure 6 mm longer (a longer shank below the button): ")
    assert one.cord_mm == pytest.approx(12, abs=0.02)
    new = changed_plan(plan, (one.event(0),))
    assert new.strands[0].end_closure_cord_mm == pytest.approx(plan.strands[0].end_closure_cord_mm + one.cord_mm)
    check_identities(new)


def test_bare_cord_and_a_small_bead_before_the_closure() -> None:
    plan = planned((Repeat(12, (G, K)), S, K, Repeat(12, (G, K)), K), 200.0)
    _, _, found = what_to_do(aimed(plan, plan.finished_length_mm + 4), 8)
    assert family(found, "bare").rests[0].elements[-1] == Space(4.0)
    assert family(found, "spacer").rests[0].elements[-2:] == (S, S)
    assert family(found, "spacer").text.startswith("Two more Silver before the closure: ")
    assert not any(one.family[0] in ("bare", "spacer") for one in what_to_do(aimed(plan, 190.0), 8)[2])


def test_the_longest_strand_decides() -> None:
    strands = (Strand((Repeat(20, (G, K)),), name="inner"), Strand((Repeat(25, (G, K)),), name="outer"))
    plan = compile_plan(Design("Lights", CORD, KINDS, strands, Size("length", 200.0)))
    _, _, found = what_to_do(aimed(plan, 208.0), 3)
    assert {rest.entry for one in found for rest in one.rests} == {1}
    assert all(rest.made == 0 for one in found for rest in one.rests)


# -- going back -------------------------------------------------------------------------------------------------------


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
    assert "6 knots to undo. Knots pulled tight in silk seldom come undone" in way.words


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


# -- cord -------------------------------------------------------------------------------------------------------------


def short_of_cord():
    plan = planned((Repeat(25, (G, D)),), 200.0, end=CLASP)
    plan = aimed(plan, plan.finished_length_mm)
    _, outlook, found = what_to_do(plan, 10, cut_share=0.86)
    assert outlook.entries[0].cord.verdict == "runs out"
    return plan, outlook, found


def test_every_way_out_of_short_cord_says_what_it_saves() -> None:
    plan, outlook, found = short_of_cord()
    assert {one.family[-1] for one in found} >= {"fewer knots", "knots", "other closure", "join"}
    for one in found:
        assert one.cord_mm < 0
        assert one.p_run_out < outlook.entries[0].cord.p_run_out
        assert ("Saves " in meaning(plan, one)) != one.join


def test_a_knot_at_every_third_bead() -> None:
    _, _, found = short_of_cord()
    one = family(found, "cord", "fewer knots")
    rest = one.rests[0].elements
    assert rest[:8] == (G, G, G, D, G, G, G, D)
    gone = 16 - rest.count(D)
    assert one.cord_mm == pytest.approx(-gone * 13)  # a double: 3 of length, 10 of take-up


def test_another_closure_takes_its_own_cord_and_steps() -> None:
    plan, _, found = short_of_cord()
    one = family(found, "cord", "other closure")
    new = changed_plan(plan, (one.event(0),))
    assert new.strands[0].end_closure == "cord end and clasp"
    assert one.cord_mm == pytest.approx((8 + 20) - (15 + 80))
    check_identities(new)


def test_cord_is_joined_inside_a_bead_before_it_runs_out() -> None:
    _, outlook, found = short_of_cord()
    one = next(one for one in found if one.join)
    assert "Best inside a bead: Glass of step " in one.text
    named = int(one.text.rstrip(".").rsplit(" ", 1)[1])
    assert 10 < named < outlook.entries[0].cord.step
    assert one.cord_mm == pytest.approx(-outlook.entries[0].cord.short_mm)


def test_nothing_that_the_cord_does_not_allow() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    for share, offered in ((1.1, True), (0.93, False)):
        _, outlook, found = what_to_do(aimed(plan, 208.0), 15, cut_share=share)
        assert any("repeats" in one.family and one.cord_mm > 0 for one in found) == offered
        most = max(0.05, outlook.entries[0].cord.p_run_out)
        assert all(one.p_run_out <= most for one in found)


# -- which, and in what order -----------------------------------------------------------------------------------------


def offer(name, p, effort, **more):
    return Remedy(name, name, 200.0, 3.0, p, 0.0, 0.0, family=(name,), effort=effort, **more)


def test_chances_about_equal_go_by_what_changes_least() -> None:
    found = [offer("much", 0.90, 5), offer("little", 0.87, 1), offer("worse", 0.80, 0.5), offer("none", 0.02, 0)]
    assert [one.what for one in ranked(found)] == ["little", "much", "worse"]


def test_sides_that_differ_and_going_back_come_after_what_is_nearly_as_good() -> None:
    found = [offer("uneven", 0.9, 1, uneven=True), offer("back", 0.9, 1, back_to=3), offer("even", 0.8, 4)]
    assert ranked(found)[0].what == "even"


def test_a_length_is_put_right_before_cord_that_can_still_be_joined_on() -> None:
    right = replace(offer("repeats", 0.9, 1), p_run_out=0.6)
    joined = replace(offer("join", 0.1, 4), join=True, p_run_out=0.01)
    assert ranked([joined, right]) == (right, joined)
    assert ranked([replace(joined, p_in_tolerance=0.9), right])[0].join


def test_of_the_same_thing_done_more_or_less_the_better_one_is_listed() -> None:
    one, other = offer("repeats", 0.5, 1), replace(offer("repeats", 0.9, 2), text="two")
    assert ranked([one, other]) == (other,)


def test_nothing_to_do_nothing_offered() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    assert what_to_do(plan, 10)[2] == ()
    assert what_to_do(aimed(plan, 230.0), plan.total_steps)[2] == ()
    bare = compile_plan(Design("Light", CORD, KINDS, (Strand((Repeat(9, (G, K)),)),)))
    assert what_to_do(bare, 3)[2] == ()


def test_choosing_folds_into_the_piece_and_undo_brings_the_old_steps_back() -> None:
    plan = mirror_plan("from the middle")
    off = aimed(plan, plan.finished_length_mm + 16)
    one = family(what_to_do(off, 4)[2], "repeats")
    change = one.event(changed_plan(off, (one.event(0),)).total_steps)
    piece = fold([Started(off.total_steps), Jumped(4), change])
    assert changed_plan(off, piece.changes).total_steps == piece.total_steps == off.total_steps + 2
    back = after(piece, undo_of(piece))
    assert (back.changes, back.total_steps, back.done) == ((), off.total_steps, 4)
