"""What to cut, in lines set in; and what a shorter cut would mean."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.plan.cut import cut_risk, told_cut_mm
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Strand
from companion.core.words.cut_words import (
    cut_figures,
    cut_lines,
    cut_list,
    cut_questioned,
    extra_cut_lines,
    knot_lines,
)

CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))
LAYOUT = (Repeat(20, (Bead("g"), Knot("single"))),)


def plan_of(*strands):
    return compile_plan(Design("Light", CORD, (BeadKind("g", "Glass", 6, 6, 1.0),), strands, unit="mm"))


def test_the_list_says_how_far_each_line_is_set_in() -> None:
    lines = list(cut_list(plan_of(Strand(LAYOUT))))
    assert (lines[0].text, lines[0].depth, lines[0].strong) == ("Cut", 0, True)
    assert [line.depth for line in lines[1:]] == [1, 2, 2, 1]
    assert [line.strong for line in lines[1:]] == [True, False, False, False]
    assert lines[1].text.endswith(" of silk, 0.45 mm, used doubled")
    assert lines[-1].text == (
        "each single knot uses up 6.0 mm of each cord and makes the piece 2.0 mm longer (from the design)"
    )
    assert all(line.text == line.text.strip() for line in lines)


def test_each_cord_of_several_is_named() -> None:
    plan = plan_of(Strand(LAYOUT, name="inner"), Strand(LAYOUT, name="outer"))
    named = [line.text.partition(":")[0] for line in cut_list(plan) if line.depth == 1 and " of silk" in line.text]
    assert named == ["inner", "outer"]


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (1.02, "As long as planned, or longer: "),
        (0.999, "A little short: "),
        (0.9, "Much too short: "),
    ],
)
def test_a_cut_says_how_short_it_is(share, said) -> None:
    plan = plan_of(Strand(LAYOUT))
    length_mm = share * plan.cuts[0].cut_mm
    first, *more = cut_lines(plan, 0, length_mm)
    assert first.text.startswith(said)
    assert bool(more) == cut_questioned(plan, 0, length_mm)
    assert {line.level for line in (first, *more)} <= ({"watch", "off"} if more else {"quiet"})


def test_a_cut_that_may_well_run_out_is_not_called_a_little_short() -> None:
    """A well-known cord has little margin: two per cent less is likely to run out, and is asked about."""
    plan = plan_of(Strand(LAYOUT))
    strand = plan.strands[0]
    planned_mm = strand.layers * (strand.need_mm + 14.0)
    strand = replace(strand, need_sd_mm=6.0, need_degrees=1000.0, cut_mm=planned_mm)
    known = replace(plan, strands=(strand,), cuts=(replace(plan.cuts[0], cut_mm=planned_mm),))
    lengths = [planned_mm * (1 - 0.0005 * step) for step in range(2, 100)]
    seen = set()
    for length_mm in lengths:
        risk, (first, *more) = cut_risk(known, 0, length_mm), cut_lines(known, 0, length_mm)
        assert first.text.startswith("A little short") == (risk <= 0.05)
        assert (first.level != "quiet") == (risk > 0.05)
        assert cut_questioned(known, 0, length_mm) == (risk > 0.25) == bool(more)
        seen.add((risk > 0.05) + (risk > 0.25))
    assert seen == {0, 1, 2}
    assert not cut_questioned(known, 0, planned_mm + 5)


def test_a_risky_cut_is_marked_as_off() -> None:
    plan = plan_of(Strand(LAYOUT))
    for share in (0.94, 0.9, 0.86, 0.8):
        length_mm = share * plan.cuts[0].cut_mm
        assert cut_lines(plan, 0, length_mm)[0].level == ("off" if cut_risk(plan, 0, length_mm) > 0.25 else "watch")


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_a_cord_shown_large_is_the_one_of_the_list(unit) -> None:
    plan = compile_plan(Design("Light", CORD, (BeadKind("g", "Glass", 6, 6, 1.0),), (Strand(LAYOUT),), unit=unit))
    (figure,), lines = cut_figures(plan), list(cut_list(plan))
    assert lines[1].text.startswith(f"{figure.number} {figure.unit} (")
    assert figure.lines[0].startswith("of silk, 0.45 mm, used doubled (")
    assert list(figure.lines[1:]) == [line.text for line in lines if line.depth == 2]
    assert [line.text for line in lines if line.depth == 1][1:] == [*extra_cut_lines(plan), *knot_lines(plan)]


def test_a_cut_is_held_against_the_length_that_was_told() -> None:
    """One who is told 39 in and cuts 38 has an inch less."""
    plan = plan_of(Strand(LAYOUT))
    told_mm = told_cut_mm(plan, 0)
    assert told_mm > plan.cuts[0].cut_mm
    assert "20 mm less than planned" in cut_lines(plan, 0, told_mm - 20)[0].text
    assert cut_lines(plan, 0, told_mm)[0].text.startswith("As long as planned, or longer: ")


@pytest.mark.parametrize(("own_mm", "said"), [(None, "888 mm to 962 mm"), (500.0, "about 1000 mm")])
def test_the_old_rule_goes_by_the_makers_own_arm_once_it_is_known(own_mm, said) -> None:
    lines = [line.text for line in cut_list(plan_of(Strand(LAYOUT)), own_mm)]
    assert [said in line for line in lines if line.startswith("old rule of thumb: 2 arm's lengths")] == [True]


@pytest.mark.parametrize(("unit", "told"), [("in", True), ("mm", False)])
def test_in_inches_it_says_how_many_knots_use_one(unit, told) -> None:
    """25.4 mm at 6 mm a knot: 4.2 knots."""
    plan = replace(plan_of(Strand(LAYOUT)), unit=unit)
    assert ("about four knots use an inch" in " ".join(knot_lines(plan))) == told
