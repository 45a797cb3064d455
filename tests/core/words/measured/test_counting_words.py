"""What should be counted, and what a count says."""

from __future__ import annotations

import pytest

from companion.core.forecast.counting import Stretch, stretch
from companion.core.words.measured.counting_words import count_words, matching_step, stretch_words, which_is_it
from tests.core.forecast.test_counting import plan_of


def test_the_steps_to_count_and_their_beads() -> None:
    plan = plan_of(30)
    assert stretch_words(plan, Stretch(6, 12, 6)) == "Steps 7 to 12 should hold 6 beads."
    assert stretch_words(plan, stretch(plan, 19, 20)) == "Step 20 should hold one bead."


def test_steps_of_several_strands_are_named_with_theirs() -> None:
    plan = plan_of(4, 5)
    inside = stretch(plan, 1, plan.piece_step(1, 3))
    assert stretch_words(plan, inside).startswith("Steps strand 0:2 to strand 1:3")


@pytest.mark.parametrize(("beads", "words"), [(0, "agrees"), (-1, "One fewer"), (1, "One more"), (-3, "3 fewer")])
def test_what_a_count_means(beads, words) -> None:
    assert words in count_words(beads)


def test_the_screen_is_set_back_from_where_it_stands_not_from_the_last_step_counted() -> None:
    """At step 20 the beads of steps 7 to 12 are counted, and one is not there: the screen is one ahead, at 19."""
    plan = plan_of(30)
    assert matching_step(plan, 20, -1) == 19
    assert matching_step(plan, 20, 2) == 22
    assert matching_step(plan, 20, 0) is None
    assert matching_step(plan, plan.total_steps, 1) is None  # no step is left that could make it up
    assert matching_step(plan, 1, -2) is None


@pytest.mark.parametrize(
    ("beads", "words"),
    [
        (-1, ("One fewer than the screen says.", "is ahead: set it to step 9.", "A bead really is left out: reckon")),
        (-3, ("3 fewer than the screen says.", "is ahead: set it to step 9.", "Beads really are left out: reckon")),
        (1, ("One more than the screen says.", "is behind: set it to step 9.", "There really is a bead too many:")),
        (2, ("2 more than the screen says.", "is behind: set it to step 9.", "There really are beads too many:")),
    ],
)
def test_what_is_asked_once_a_count_is_off(beads, words) -> None:
    asked = which_is_it(plan_of(30), beads, 9)
    assert [part for part, line in zip(words, asked, strict=True) if part not in line] == []
    assert [line[:3] for line in asked[1:]] == ["1  ", "2  "]
    assert which_is_it(plan_of(30), beads, 9, "count")[1].startswith("1  The count is ")
