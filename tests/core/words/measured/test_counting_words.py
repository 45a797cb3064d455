"""What should be counted, and what a count says."""

from __future__ import annotations

import pytest

from companion.core.forecast.counting import Stretch, stretch
from companion.core.words.measured.counting_words import (
    count_words,
    please_count,
    screen_set_words,
    stretch_words,
    which_is_it,
)
from tests.core.forecast.test_counting import plan_of


def test_the_steps_to_count_and_their_beads() -> None:
    plan = plan_of(30)
    assert stretch_words(plan, Stretch(6, 12, 6), 12).startswith("Steps 7 to 12 should hold 6 beads. Back from ")
    assert stretch_words(plan, stretch(plan, 19, 20), 20).startswith("Step 20 should hold one bead. Back from ")


def test_steps_of_several_strands_are_named_by_the_number_in_the_heading() -> None:
    plan = plan_of(4, 5)
    inside = stretch(plan, 1, plan.piece_step(1, 3))
    assert stretch_words(plan, inside, inside.step).startswith(f"Steps 2 to {plan.piece_step(1, 3)}")


def test_what_to_count_with_its_key() -> None:
    plan = plan_of(30)
    told = please_count(plan, Stretch(6, 12, 6), 12, " (r)")
    assert told.startswith("Count the beads in steps 7 to 12 (r): there should be 6. Back from the last bead done: 6 ")
    assert please_count(plan, stretch(plan, 19, 20), 20).startswith(
        "Count the beads in step 20: there should be 1. Back"
    )


@pytest.mark.parametrize(
    ("beads", "to", "number", "screen", "left"),
    [
        (-1, 25, "One fewer", "ahead: set it back from step 26 to 25", "A bead really is left out"),
        (-2, 24, "2 fewer", "ahead: set it back from step 26 to 24", "2 beads really are left out"),
        (1, 27, "One more", "behind: set it on from step 26 to 27", "There really is a bead too many"),
        (2, 28, "2 more", "behind: set it on from step 26 to 28", "There really are 2 beads too many"),
    ],
)
def test_the_screen_or_the_beads(beads, to, number, screen, left) -> None:
    found, first, second = which_is_it(plan_of(30), beads, 26, to)
    assert found == f"{number} than the screen says."
    assert first == f"1  The screen is {screen}."
    assert second == f"2  {left}: reckon with it."


def test_without_a_screen_it_is_the_count() -> None:
    found, first, _ = which_is_it(plan_of(30), -1, 26, 25, "count")
    assert found == "One fewer than the count says."
    assert first == "1  The count is ahead: set it back from step 26 to 25."
    assert screen_set_words(plan_of(30), 26, 25, what="count") == "The count is set back from step 26 to 25."


def test_that_the_screen_was_set() -> None:
    plan = plan_of(30)
    assert screen_set_words(plan, 26, 25) == "The screen is set back from step 26 to 25."
    assert screen_set_words(plan, 26, 28, 1) == (
        "The screen is set on from step 26 to 28. One earlier reading fits no step now and is left out."
    )


@pytest.mark.parametrize(("beads", "words"), [(0, "agrees"), (-1, "One fewer"), (1, "One more"), (-3, "3 fewer")])
def test_what_a_count_means(beads, words) -> None:
    assert words in count_words(beads)
