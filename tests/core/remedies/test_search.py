"""What to do: every remedy leaves what is made alone, keeps a mirror where it says so, and gives what it promises."""

from __future__ import annotations

import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.core.plan.longest import strand_groups
from companion.core.plan.planner import compile_plan
from companion.core.plan.replan import changed_plan
from companion.core.remedies.ranking import MOST_LISTED
from companion.core.remedies.remaining_layout import RemainingLayout, RemainingSide
from companion.core.remedies.remedy_words import cost_words, remedy_line
from companion.core.values.design import (
    Design,
    Mirror,
    Repeat,
    Size,
    Strand,
)
from companion.core.values.text import capitalised, percent
from tests.core.oracles.plan_checks import check_identities
from tests.core.random_designs import random_design
from tests.core.remedies.off_plan import (
    CORD,
    KINDS,
    G,
    K,
    aimed,
    mirror_plan,
    planned,
    short_of_cord,
    what_to_do,
    whole,
)
from tests.examples import few_examples

MOST_WORDS = 20  # of a sentence that is heard once


@few_examples
@given(
    seed=st.integers(0, 10_000),
    mirrored=st.booleans(),
    share=st.floats(0, 0.95),
    off_mm=st.sampled_from([-40, -12, -5, 5, 12, 40]),
)
@example(seed=4290, mirrored=True, share=0.0, off_mm=12)  # a start that is written beside an end that is not
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
    mirror = RemainingLayout((RemainingSide(0, tuple(old), 0, True),)).mirror
    if remedy.uneven or mirror is None:
        return
    begin, end = mirror
    beside = range(4) if {"bare", "spacer"} & set(remedy.family) else range(1)
    after = len(new) - (len(old) - end)
    parts = [part for more in beside for part in (new[begin : after - more], new[begin + more : after])]
    assert any(part == part[::-1] for part in parts)


def test_the_longest_strand_decides() -> None:
    strands = (Strand((Repeat(20, (G, K)),), name="inner"), Strand((Repeat(25, (G, K)),), name="outer"))
    plan = compile_plan(Design("Lights", CORD, KINDS, strands, Size("length", 200.0)))
    _, _, found = what_to_do(aimed(plan, 208.0), 3)
    assert {rest.entry for one in found for rest in one.rests} == {1}
    assert all(rest.made == 0 for one in found for rest in one.rests)


def test_every_way_out_of_short_cord_says_what_it_saves() -> None:
    plan, outlook, found = short_of_cord()
    assert {one.family[-1] for one in found} >= {"fewer knots", "knots", "join"}
    for one in (one for one in found if one.family != ("join",)):
        assert one.cord_mm < 0
        assert one.p_run_out < outlook.entries[0].cord.p_run_out
        assert ("Saves " in cost_words(plan, one)) != (one.family == ("join",))


def test_nothing_that_the_cord_does_not_allow() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    for share, offered in ((1.1, True), (0.93, False)):
        _, outlook, found = what_to_do(aimed(plan, 208.0), 15, cut_share=share)
        assert any("repeats" in one.family and one.cord_mm > 0 for one in found) == offered
        most = max(0.05, outlook.entries[0].cord.p_short)
        assert all(one.p_short <= most for one in found)


def test_nothing_to_do_nothing_offered() -> None:
    plan = planned((Repeat(25, (G, K)),), 200.0)
    assert what_to_do(plan, 10)[2] == ()
    assert what_to_do(aimed(plan, 230.0), plan.total_steps)[2] == ()
    bare = compile_plan(Design("Light", CORD, KINDS, (Strand((Repeat(9, (G, K)),)),)))
    assert what_to_do(bare, 3)[2] == ()


@pytest.mark.parametrize("off_mm", [12.0, 3.2, -5.0])
def test_no_way_out_is_a_sentence_longer_than_can_be_kept_in_mind(off_mm) -> None:
    """Its choice comes first, then its chance, then what it costs; in inches, whose lengths are the longest to say."""
    plan = replace(mirror_plan(), unit="in")
    _, _, found = what_to_do(aimed(plan, plan.finished_length_mm + off_mm), 14)
    assert found
    for one in found:
        line = remedy_line(plan, one)
        assert line.startswith(f"{one.what}. {capitalised(percent(one.p_in_tolerance))} within"), line
        for sentence in re.split(r"(?<=[.:]) (?=[A-Z])", line):
            assert len(sentence.split()) <= MOST_WORDS, sentence
