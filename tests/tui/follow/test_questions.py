"""Each question reads its text once and gives back a value, or none; and says what it would mean meanwhile."""

from __future__ import annotations

import pytest

from companion.cli.main import run
from companion.core.forecast.counting import Stretch
from companion.tui.follow.questions import (
    EndLength,
    finish_question,
    join_question,
    jump_question,
    learn_question,
    left_question,
    note_question,
    reading_question,
    recount_question,
)
from companion.workshop import OpenPiece, Teaching, Workshop


@pytest.fixture
def opened(workshop, skerry) -> OpenPiece:
    return workshop.jump(workshop.start(skerry), 15)


def heard(judged) -> str:
    return " ".join(line.text for line in judged.lines)


def test_a_reading_in_the_makers_own_unit(workshop, opened) -> None:
    question = reading_question(workshop, opened, workshop.outlook(opened), "strand")
    judged = question.judge("3 3/16")
    assert (judged.value.mm, judged.value.text) == (pytest.approx(3.1875 * 25.4), "3 3/16")
    assert "expected" in heard(judged)
    assert judged.doubt == ""
    assert question.judge("14 in").doubt.endswith("Press Enter again to accept it anyway.")
    assert question.judge("").value is question.judge("3q").value is None
    assert "unit that isn't known here" in heard(question.judge("3q"))


def test_joined_cord_is_longer_than_nothing(workshop, opened) -> None:
    question = join_question(workshop, opened, workshop.outlook(opened))
    assert question.judge("20 cm").value.mm == 200.0
    assert question.judge("0").value is None
    assert heard(question.judge("")).endswith("New cord could not be hidden: no bead still to come takes four cords.")


@pytest.mark.parametrize(
    ("typed", "value"), [("", 5), ("5", 5), ("0", 0), (" 7 ", 7), ("-1", None), ("5.0", None), ("1234567", None)]
)
def test_a_number_of_beads(opened, typed, value) -> None:
    assert recount_question(opened, Stretch(10, 15, 5)).judge(typed).value == value


@pytest.mark.parametrize(
    ("typed", "value"), [("0", 0), ("33", 33), ("34", None), ("15", None), ("", None), ("strand:3", 3), ("x:3", None)]
)
def test_a_step_to_jump_to(opened, typed, value) -> None:
    assert jump_question(opened).judge(typed).value == value


def test_a_step_of_one_of_several_entries(workshop, patterns) -> None:
    opened = workshop.start(patterns / "inner-farne-strands.yaml")
    judge = jump_question(opened).judge
    middle = opened.plan.strands[1].label
    assert judge(f"{middle}:3").value == opened.plan.piece_step(1, 3)
    assert judge("3").value == 3  # the number in the heading
    assert judge("150").value == opened.plan.total_steps
    assert judge("151").value is None


def test_a_note_is_a_word_at_least(opened) -> None:
    assert note_question(opened).judge("  looser \t now ").value == "looser   now"
    assert note_question(opened).judge(" \x1b ").value is None


@pytest.mark.parametrize(("typed", "value"), [("", True), ("Yes", True), ("n", False), ("later", False)])
def test_the_card_learns_or_not(typed, value) -> None:
    assert learn_question(Teaching("silk")).judge(typed).value is value


def test_the_ends_can_be_left_unmeasured(opened) -> None:
    assert finish_question(opened).judge("").value == left_question(opened).judge(" ").value == EndLength(None)
    assert left_question(opened).judge("23 cm").value == EndLength(230.0)


@pytest.fixture
def far_from_target(workshop: Workshop, tmp_path) -> OpenPiece:
    """A piece whose plan comes to 178 mm where 300 mm are aimed at, every step made."""
    path = tmp_path / "far.yaml"
    path.write_text(
        "format: 1\nname: Far\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}}\nsize: {length: 300 mm}\n"
        "strand: {layout: [{repeat: 20, of: [b, knot]}]}\n"
    )
    opened = workshop.start(path)
    assert (opened.plan.finished_length_mm, opened.plan.target_mm) == (178.0, 300.0)
    return workshop.jump(opened, opened.plan.total_steps)


@pytest.mark.parametrize(
    ("typed", "doubted"), [("180 mm", True), ("209 mm", True), ("290 mm", False), ("391 mm", True)]
)
def test_a_finished_length_is_held_against_the_same_by_the_app_and_the_command(
    far_from_target, capsys, typed, doubted
) -> None:
    judged = finish_question(far_from_target).judge(typed)
    assert judged.value is not None
    assert bool(judged.doubt) is doubted
    assert run(["finish", far_from_target.name, typed]) == int(doubted)
    told = capsys.readouterr()
    assert ("far from the plan" in told.err) is doubted
    assert "the target is 300 mm" in (told.err if doubted else told.out)
    assert heard(judged).endswith("of 300 mm.") or heard(judged).endswith("over 300 mm.")
