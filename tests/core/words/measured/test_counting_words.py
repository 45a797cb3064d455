"""What should be counted, and what a count says."""

from __future__ import annotations

import pytest

from companion.core.forecast.counting import Stretch, stretch
from companion.core.words.measured.counting_words import count_words, stretch_words
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
