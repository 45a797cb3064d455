"""What would let a draft come out: every way is a draft that the planner plans, and it is as long as it says."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.draft.cures import Cured, cures, has_tight_holes, misses, off_mm, worth_showing
from companion.core.draft.draft import BeadDraft, Draft, StrandDraft
from companion.core.draft.file_text import file_text
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.words.drafting.cure_words import cured_words, cures_notice
from companion.storage.design.files import read_design_text

CUFF = Draft(
    name="Sula cuff",
    body="172",
    ease="20",
    cord="twisted silk",
    cord_diameter="0.45",
    layers="2",
    beads=(
        BeadDraft("P", name="Pink glass", length="8", hole="1.2", colour="pink"),
        BeadDraft("S", name="Silver spacer", length="3", diameter="5", hole="1.2", colour="silver"),
    ),
    pattern="PPPPS",
)
LONG = replace(CUFF, measured="length", body="442", times="9")


def planned(draft: Draft) -> Plan:
    reading = read_design_text(file_text(draft).text, "x")
    assert reading.design is not None, reading.problems
    return compile_plan(reading.design)


def tried(draft: Draft) -> list[Cured]:
    found = []
    for cure in cures(draft, planned(draft)):
        plan = planned(cure.draft)
        found.append(Cured(cure, plan, not misses(plan)))
    return found


def said(draft: Draft) -> str:
    plan = planned(draft)
    return "\n".join(str(notice) for notice in cures_notice(plan, worth_showing(tried(draft), off_mm(plan))))


@pytest.mark.parametrize(
    ("draft", "wanted"),
    [
        (CUFF, "△ 11.5 mm too short: 1 a clasp 11.5 mm longer (216 mm) · 2 four repeats and 1 Pink glass (215 mm) · "),
        (LONG, "△ 14 mm too short: 1 a clasp 14 mm longer (442 mm) · 2 nine repeats and 1 Pink glass (438 mm) · "),
        (replace(CUFF, body="166", times="6"), "four repeats"),
        (replace(CUFF, body="165", middle="P"), "5 mm too long: 1 a clasp 5 mm shorter (209 mm)"),
    ],
)
def test_what_does_not_come_out_and_the_ways(draft: Draft, wanted: str) -> None:
    assert wanted in said(draft)


def test_what_comes_out_has_no_ways() -> None:
    fits = replace(CUFF, tolerance="15")
    assert not misses(planned(fits))
    assert cures(fits, planned(fits)) == []
    assert said(fits) == ""


@pytest.mark.parametrize(
    "draft", [CUFF, LONG, replace(CUFF, body="165", middle="P"), replace(CUFF, pattern="[PS ]PP", body="146")]
)
def test_a_way_is_as_long_as_its_own_sum_says(draft: Draft) -> None:
    """Those with other beads, once by the planner and once by adding up what was put in and left out."""
    with_beads = [one for one in tried(draft) if one.cure.near_mm]
    assert with_beads
    for one in with_beads:
        assert one.plan.finished_length_mm == pytest.approx(one.cure.near_mm, abs=1e-6)


def test_a_clasp_makes_up_for_what_is_over_or_short() -> None:
    clasp = next(one for one in tried(CUFF) if one.cure.kind == "clasp")
    before = planned(CUFF)
    assert clasp.cure.by_mm == pytest.approx(-off_mm(before))
    assert off_mm(clasp.plan) == pytest.approx(0, abs=0.2)  # as it is typed: to a tenth of a millimetre at each end


def test_one_spacer_fewer() -> None:
    draft = replace(CUFF, measured="length", body="200", tolerance="3", ease="")
    one = next(one for one in tried(draft) if one.cure.kind == "one fewer" and one.comes_out)
    assert cured_words(one) == "one Silver spacer fewer (200 mm)"
    before, after = (dict(plan.strands[0].beads) for plan in (planned(draft), one.plan))
    assert {key: before[key] - after[key] for key in before} == {"P": 0, "S": 1}


def test_no_absurd_ways_and_each_once() -> None:
    far = replace(CUFF, times="1")
    kinds = [one.cure.kind for one in worth_showing(tried(far), off_mm(planned(far)))]
    assert "count" in kinds
    assert not {"ease", "tolerance", "clasp"} & set(kinds)
    assert all(kinds.count(kind) <= 2 for kind in kinds)


def test_a_hole_too_small_for_two_cords() -> None:
    draft = replace(CUFF, tolerance="15", cord_diameter="0.7")
    assert has_tight_holes(planned(draft))
    assert said(draft).startswith("△ the cord fills the holes: 1 one cord alone (")


def test_of_several_strands_no_bead_is_moved() -> None:
    draft = replace(CUFF, others=(StrandDraft("lower", "P", times="9"),))
    assert {one.cure.kind for one in tried(draft)} <= {"clasp", "ease", "tolerance"}
