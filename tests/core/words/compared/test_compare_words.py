"""Variants side by side: columns that line up, the same in sentences, what to see to."""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, CordDesign, End, Knot, Repeat, Size, Space
from companion.core.variants.hours import USUAL_HAND, Hand
from companion.core.variants.variants import variants
from companion.core.words.compared.compare_words import (
    AS_DESIGNED,
    KNOTS_STAY,
    comparison_lines,
    comparison_sentences,
    ordinal,
    strip,
    time_in_full,
    time_words,
    used_mm,
)
from companion.storage.design.files import read_design
from tests.core.hand_designs import bead, design, knots

TIP = End("bead tip and clasp")
CORD = CordDesign("linen", 0.7, knots=knots(6, 2))


@pytest.fixture
def skerry_design(skerry):
    return read_design(skerry).design


def test_the_tables_line_up_and_say_what_differs(skerry_design) -> None:
    lines = list(comparison_lines(variants(skerry_design), compile_plan(skerry_design), USUAL_HAND))
    assert lines[:3] == [
        "The target is 8 in, and 1/8 in either way is near enough.",
        "Time at a usual pace; your own is known once a few steps are done.",
        "All lengths are in inches.",
    ]
    knots_table = [lines[4], *lines[5:13:2]]
    assert [line.split("  ")[1 if line.startswith("  ") else 0].strip("* ") for line in knots_table[1:]] == [
        "after every bead", "after every 2nd bead", "after every 3rd bead", "around Silver daisies only",
    ]  # fmt: skip
    assert knots_table[1].startswith("* ")
    column = knots_table[0].index("cut")
    assert all(line[column - 1] == " " and line[column] != " " for line in knots_table)
    assert knots_table[2].endswith("too long")
    assert AS_DESIGNED in lines
    assert "      2 bead tips and 1 clasp" in lines
    assert max(map(len, (line for line in lines if line.startswith(("*", "  "))))) <= 80


def test_below_each_way_of_knotting_stands_how_it_begins(skerry_design, patterns) -> None:
    lines = list(comparison_lines(variants(skerry_design), compile_plan(skerry_design), USUAL_HAND))
    assert lines[6] == "      •G•G•G•G•G•G•G•G•G•G•S•G•S•G•G•G•G•G•G•G•G•G•G•"
    assert lines[8] == "      •GG•GG•GG•GG•GG•GG•S•G•S•GG•GG•GG•GG•GG•GG•"
    assert "G Sea-glass round and S Silver daisy; • a knot." in lines
    strands = read_design(patterns / "inner-farne-strands.yaml").design
    assert strands is not None
    plan = compile_plan(strands)
    assert strip(plan, "sand", 9) == "•S•F•S•F…"  # of the first strand that has it
    assert strip(plan, "", 9) == "•F•F•F•F…"
    bare = design([Bead("b"), Space(20), Bead("b")], CORD, [bead(6)])
    assert strip(compile_plan(bare)) == "B─B"


def test_a_warning_is_told_once_with_all_that_it_is_for(skerry_design) -> None:
    lines = list(comparison_lines(variants(skerry_design), compile_plan(skerry_design), USUAL_HAND))
    told = [line for line in lines if line.startswith("△")]
    assert len(told) == len(set(told))
    assert told[0].startswith("△ French wire and clasp, knotted to the clasp, crimp and clasp and endless: The hole of")
    assert not any("tolerance" in line for line in told)  # the row says it already


def test_for_the_ear_a_sentence_for_each(skerry_design) -> None:
    found, plan = variants(skerry_design), compile_plan(skerry_design)
    said = list(comparison_sentences(found, plan, Hand(1.5, own=True)))
    assert said[1] == "Time at your own pace."
    assert (
        "After every 2nd bead: 8 1/4 in long (too long). Cut 41 15/16 in, of which 28 1/2 in are used. 27 beads, about "
        "50 minutes."
    ) in said
    assert any(one.startswith("Bead tip and clasp, as the design has it: ") for one in said)
    assert any(one.endswith("It needs 2 cord ends (hole at least 1 mm), 1 clasp and 2 jump rings.") for one in said)
    rows = [one for one in found if one.plan]
    assert sum(" long" in one and ". Cut " in one for one in said) == len(rows)


def test_what_is_used_is_what_the_last_step_says_of_all_strands(patterns) -> None:
    made = read_design(patterns / "inner-farne-strands.yaml").design
    assert made is not None
    plan = compile_plan(made)
    by_hand = sum(
        s.layers
        * (s.start_tail_mm + s.start_closure_cord_mm + s.strand_length_mm + s.take_up_mm + s.end_closure_cord_mm)
        for s in plan.strands
    )
    assert used_mm(plan) == pytest.approx(by_hand)


def test_where_the_knots_stay_it_says_why() -> None:
    made = design([Repeat(6, (Knot("single"), Bead("b"), Knot("single"), Space(20)))], CORD, [bead(6)], None, TIP, TIP)
    for lines in (comparison_lines, comparison_sentences):
        assert KNOTS_STAY in list(lines(variants(made), compile_plan(made), USUAL_HAND))


def test_without_a_target_none_is_named() -> None:
    made = design([Repeat(12, (Bead("b"), Knot("single")))], CORD, [bead(6)], None, TIP, TIP)
    lines = list(comparison_lines(variants(made), compile_plan(made), USUAL_HAND))
    assert "target" not in lines[0]
    assert not any(line.endswith(("too long", "too short")) for line in lines)


def test_a_target_that_is_just_reached_is_no_note() -> None:
    made = design([Repeat(20, (Bead("b"), Knot("single")))], CORD, [bead(8)], Size("length", 203.0), TIP, TIP)
    plan = compile_plan(made)
    exact = design(
        [Repeat(20, (Bead("b"), Knot("single")))], CORD, [bead(8)],
        Size("length", plan.finished_length_mm - 3.0), TIP, TIP,
    )  # fmt: skip
    lines = list(comparison_lines(variants(exact), compile_plan(exact), USUAL_HAND))
    assert not next(line for line in lines if line.startswith("* ")).endswith("long")


@pytest.mark.parametrize(
    ("seconds", "short", "full"),
    [(20, "5 min", "5 minutes"), (44 * 60, "45 min", "45 minutes"), (3600, "1 h", "1 hour"),
     (119 * 60, "2 h", "2 hours"), (155 * 60, "2 h 30 min", "2 hours and 30 minutes")],
)  # fmt: skip
def test_times_are_round(seconds, short, full) -> None:
    assert (time_words(seconds), time_in_full(seconds)) == (short, full)


def test_ordinals() -> None:
    assert [ordinal(n) for n in (1, 2, 3, 4, 11, 12, 21, 112)] == [
        "1st", "2nd", "3rd", "4th", "11th", "12th", "21st", "112th",
    ]  # fmt: skip
