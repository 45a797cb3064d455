"""finish and abandon: the end of a piece, and what its card learns from it."""

from __future__ import annotations

import pytest

from companion.core.cord.cards import knot_figures
from companion.workshop import open_at
from tests.cli.running import steps_made


def test_start_to_finish(tallycord, skerry) -> None:
    name = tallycord("start", skerry, "--cut", "46 in").out.strip()
    assert name == "skerry-bracelet"
    total = steps_made(tallycord)[1]
    for step in range(1, total + 1):
        ran = tallycord("next", name)
        assert ran.code == 0
        assert f"Step {step} of {total}." in ran.out.splitlines()[0]
        if step == 13:
            assert tallycord("back", name).out.startswith("Undone: step 13. 12 of")
            assert steps_made(tallycord)[0] == 12
            assert tallycord("next", "skerry").code == 0  # the beginning of a name will do
    assert steps_made(tallycord) == (total, total, "under way")
    assert tallycord("next", name).code == 1
    assert tallycord("finish", name, "202 mm").code == 0
    assert steps_made(tallycord) == (total, total, "finished")
    assert tallycord("next", name).code == 1
    fault = tallycord("journal", name).out.splitlines()
    assert "Begun: Skerry bracelet" in fault[0]
    assert "Cut 46 in" in fault[1]
    assert sum("Done:" in line for line in fault) == total + 1
    assert "Undone: step" in "".join(fault)
    assert "Finished at 7 15/16 in" in fault[-1]


def test_an_ended_piece_says_so_whatever_is_asked(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    tallycord("abandon", name)
    for command in (("finish", name), ("remedy", name), ("remedy", name, 1), ("next", name)):
        ran = tallycord(*command)
        assert ran.code == 1
        assert "put away" in ran.err


@pytest.fixture
def made(tallycord, carded) -> str:
    """A piece with a card, all its steps done."""
    rows = ("--before", "250 mm", "--after", "238 mm", "--row", "4 mm")
    ran = tallycord("cord", "skerry silk", "--knots", "2", *rows, "--diameter", "0.45 mm", "--layers", "2")
    assert ran.code == 0, ran.err
    name = tallycord("start", carded).out.split()[0]
    opened = open_at().open(name)
    assert tallycord("jump", name, opened.plan.total_steps).code == 0
    return name


def single(name: str = "skerry silk"):
    card = open_at().card(name)
    assert card is not None
    return knot_figures(card, "single")


def test_a_finished_piece_teaches_its_card_when_asked_to(tallycord, made) -> None:
    before = single()
    ran = tallycord("finish", made, "206 mm", "--left", "150 mm", "--learn")
    assert (ran.code, ran.err) == (0, "")
    assert "skerry silk: Single knot: take-up" in ran.out
    assert "worth keeping" in ran.out
    after = single()
    assert after.length_sd_mm < before.length_sd_mm
    assert after.take_up_sd_mm < before.take_up_sd_mm
    assert after.length_mm != before.length_mm
    card = open_at().card("skerry silk")
    assert card is not None
    assert {lesson.piece for lesson in card.lessons} == {made}


def test_opened_again_it_teaches_nothing_and_without_learn_nothing_is_taken(tallycord, made) -> None:
    before = single()
    shown = tallycord("finish", made, "206 mm", "--left", "150 mm")
    assert "To update it: `tallycord undo" in shown.out
    assert single() == before
    assert tallycord("back", made).code == 0
    assert tallycord("finish", made, "206 mm", "--left", "150 mm", "--learn").code == 0
    taught = single()
    assert taught != before
    assert tallycord("back", made).code == 0
    assert single() == before
    assert tallycord("finish", made, "206 mm", "--left", "150 mm", "--learn").code == 0
    assert single() == taught


def test_where_there_is_no_card_nothing_learns(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.split()[0]
    opened = open_at().open(name)
    tallycord("jump", name, opened.plan.total_steps)
    ran = tallycord("finish", name, "206 mm", "--learn")
    assert ran.code == 0
    assert "No cord card was updated" in ran.err


def test_a_piece_that_seems_a_bead_short_does_not_teach(tallycord, made) -> None:
    plan = open_at().open(made).plan
    for step in (6, 12, 16, 22):
        mm = plan.strands[0].steps[step - 1].strand_mm - (6.1 if step > 10 else 0)
        tallycord("jump", made, step)
        tallycord("measure", made, f"{mm:.1f} mm")
    tallycord("jump", made, plan.total_steps)
    ran = tallycord("finish", made, "196 mm", "--learn")
    assert "A bead seems to be missing" in ran.err
    assert single() == single()
    card = open_at().card("skerry silk")
    assert card is not None
    assert card.lessons == ()


def test_what_is_left_can_be_nothing_and_not_below(tallycord, made) -> None:
    assert tallycord("finish", made, "206 mm", "--left", "-3 mm").code == 2
    ran = tallycord("finish", made, "206 mm", "--left", "0 mm")
    assert ran.code == 0
    assert "0 in of each cord left." in ran.out


def test_a_finished_length_that_looks_wrong_is_asked_about_before_it_is_taken(tallycord, made) -> None:
    total = steps_made(tallycord)[1]
    ran = tallycord("finish", made, "20 in")
    assert ran.code == 1
    assert "20 in is far from the plan: the target is 8 in. Nothing was saved." in ran.err
    assert "with --anyway" in ran.err
    assert steps_made(tallycord) == (total, total, "under way")
    assert tallycord("finish", made, "20 in", "--anyway").code == 0
    assert steps_made(tallycord) == (total, total, "finished")
