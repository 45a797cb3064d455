"""What a finished piece came to, in words."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.journal.events import Recounted
from companion.core.journal.pace import Worked, seconds_worked
from companion.core.journal.piece import Join, Piece
from companion.core.values.design import Size
from companion.core.words.result_words import as_wanted, good_sentence, result_lines
from tests.core.forecast.longstone import READ, longstone, measured
from tests.core.hand_plans import hand_plan


@pytest.mark.parametrize(
    ("finished_mm", "sentence"),
    [
        (None, "It is finished."),
        (200.0, "It came out exactly at 200 mm."),
        (202.0, "It came out at 202 mm, 2 mm over 200 mm: within the 3 mm you allowed."),
        (190.0, "It came out at 190 mm, 10 mm short of 200 mm."),
    ],
)
def test_one_good_sentence(finished_mm: float | None, sentence: str) -> None:
    plan = replace(hand_plan(size=Size("length", 200.0), unit="mm"), target_mm=200.0, tolerance_mm=3.0)
    assert good_sentence(plan, replace(Piece(), finished_mm=finished_mm)) == sentence


def test_pauses_and_clocks_set_back_are_left_out() -> None:
    assert seconds_worked([0, 10, 30, 10_000, 10_020, 5_000, 5_030]) == 10 + 20 + 20 + 30
    assert seconds_worked([]) == 0


@pytest.mark.parametrize(("beads", "said"), [(0, "23 beads"), (-1, "22 beads"), (2, "25 beads")])
def test_it_is_made_of_the_beads_that_were_counted(beads: int, said: str) -> None:
    plan = hand_plan()
    plan = replace(plan, strands=(replace(plan.strands[0], beads=(("glass", 21), ("silver", 2)), steps=()),))
    piece = replace(Piece(), counted=(Recounted(10, 4, beads),), state="finished")
    lines = [line.text for line in result_lines(plan, plan, piece, Worked(600, 1), None, 150.0)]
    assert any(line.startswith(f"made of   {said} and") for line in lines)
    assert "time      10 minutes, in one day" in lines


@pytest.mark.parametrize(("finished_mm", "wanted"), [(None, False), (200.0, True), (203.0, True), (203.5, False)])
def test_what_is_within_what_was_allowed_is_as_wanted(finished_mm: float | None, wanted: bool) -> None:
    plan = replace(hand_plan(size=Size("length", 200.0), unit="mm"), target_mm=200.0, tolerance_mm=3.0)
    assert as_wanted(plan, replace(Piece(), finished_mm=finished_mm)) is wanted
    without = replace(plan, tolerance_mm=None)
    assert as_wanted(without, replace(Piece(), finished_mm=finished_mm)) is (finished_mm == 200.0)


def test_cord_that_was_joined_on_is_used_too() -> None:
    """1000 mm were cut, two cords of 500; each gained 100 mm, and 60 mm of each were left: 1080 mm are in it."""
    plan = hand_plan(unit="mm")
    plan = replace(
        plan, cuts=(replace(longstone().cuts[0], cut_mm=1000.0),), strands=(replace(plan.strands[0], steps=()),)
    )
    piece = replace(Piece(), joins=(Join(4, 70.0, ()), Join(9, 30.0, ())), state="finished")
    lines = [line.text for line in result_lines(plan, plan, piece, Worked(600, 1), 60.0, 150.0)]
    assert "joined on 100 mm of each cord" in lines
    assert "used      1080 mm" in lines
    unmeasured = [line.text for line in result_lines(plan, plan, piece, Worked(600, 1), None, 150.0)]
    assert "joined on 100 mm of each cord" in unmeasured
    assert not any(line.startswith("used") for line in unmeasured)


def test_a_reading_that_is_set_aside_is_marked_in_the_list() -> None:
    plan = longstone()
    piece, outlook = measured(plan, *READ[:3])
    lines = [line.text for line in result_lines(plan, plan, piece, Worked(600, 1), None, 150.0, outlook.set_aside)]
    assert "after step 16: strand 10 5/16 in, set aside" in lines
    assert "after step 16: strand 9 5/16 in" in lines
