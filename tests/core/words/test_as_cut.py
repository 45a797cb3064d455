"""Steps that ask for a cut say the cut that was made."""

from __future__ import annotations

import re

from msgspec.structs import replace

from companion.core.journal.events import CutEntered
from companion.core.plan.cut import told_cut_mm
from companion.core.plan.planner import compile_plan
from companion.core.values.design import BeadRun, CordDesign, Design, End, Strand
from companion.core.words.as_cut import told_as_cut
from companion.core.words.cut_words import cut_list
from tests.core.hand_designs import bead, design


def texts(plan, entry: int = 0) -> list[str]:
    return [step.text for step in plan.strands[entry].steps]


def plan_of(*strands: Strand, material="silk", unit="cm"):
    return compile_plan(
        Design("Check light", CordDesign("c", 0.5, 2, material), (bead(6, hole_mm=1.5),), strands, unit=unit)
    )


def strand(name: str = "", closure: str = "bead tip and clasp", work="along") -> Strand:
    return Strand((BeadRun("b", 20, 1),), End(closure), End(closure), name=name, work=work)


def test_the_cut_that_was_entered_stands_in_the_step() -> None:
    plan = plan_of(strand())
    told = told_as_cut(plan, [CutEntered(0, 1500.0, "150 cm")])
    assert texts(told)[0].endswith("Cut 150 cm, as you entered, if it is not cut yet.")
    assert texts(told)[1:] == texts(plan)[1:]
    assert replace(told, strands=plan.strands) == plan


def test_the_planned_cut_changes_nothing() -> None:
    plan = plan_of(strand())
    assert told_as_cut(plan, [CutEntered(0, told_cut_mm(plan, 0), "")]) is plan


def test_of_several_strands_each_has_its_own() -> None:
    plan = plan_of(strand("upper"), strand("lower"))
    told = told_as_cut(plan, [CutEntered(0, 1400.0, ""), CutEntered(1, 1500.0, "")])
    assert "Cut 140 cm for the upper strand" in texts(told)[0]
    assert (
        texts(told, 1)[0]
        == "Cut 150 cm of the stretched silk for the lower strand, as you entered, if it is not cut yet."
    )


def test_the_cord_of_a_sliding_knot_is_still_told() -> None:
    plan = plan_of(strand(closure="sliding knot"), material="waxed cotton")
    (text,) = {texts(told_as_cut(plan, [CutEntered(0, 1500.0, "")]))[0]}
    assert "Cut 150 cm, as you entered, if it is not cut yet. Cut " in text
    assert text.endswith("more, for the sliding knot.")


def test_worked_from_the_middle_the_clip_goes_where_the_sides_part() -> None:
    """Each side has half of what the cord is longer than planned: 10 cm more of two cords is 2.5 cm a side and cord."""
    plan = plan_of(strand(work="from the middle"), unit="mm")
    longer = CutEntered(0, told_cut_mm(plan, 0) + 100, "")
    before, after = texts(plan)[2], texts(told_as_cut(plan, [longer]))[2]
    where = [float(text.split(" mm ")[0].removeprefix("Put a clip on the cord ")) for text in (before, after)]
    assert abs(where[1] - where[0] - 25) <= 1


def test_a_plan_told_in_other_words_stays_as_it_is() -> None:
    plan = compile_plan(design([BeadRun("b", 9)], CordDesign("c", 0.4), [bead(6, hole_mm=1.4)]))
    (only,) = plan.strands
    old = replace(plan, strands=(replace(only, steps=(replace(only.steps[0], text="Cut it."), *only.steps[1:])),))
    assert told_as_cut(old, [CutEntered(0, 900.0, "")]) == old


def test_the_sides_of_the_cut_list_add_up_to_what_is_told_and_the_clip_parts_them() -> None:
    plan = plan_of(strand(work="from the middle"), material="waxed cotton", unit="mm")
    (shared,) = [line.text for line in cut_list(plan) if line.text.startswith("shared between")]
    first, second = (int(number) for number in re.findall(r"side (\d+) mm", shared))
    assert abs(first + second - told_cut_mm(plan, 0)) <= 1
    clipped = int(texts(plan)[2].split(" mm ")[0].removeprefix("Put a clip on the cord "))
    assert abs(2 * clipped - first) <= 1  # it lies doubled
