"""What a card would learn, and what is left of the cord."""

from __future__ import annotations

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.cord.lessons import Lesson
from companion.core.words.finish_words import left_words, lesson_lines

CARD = CordCard("silk", 0.5, tests=(CardTest("single", KnotTest(200.0, 194.0, 1)),))


def test_a_lesson_says_what_the_card_says_now_and_then() -> None:
    (line,) = lesson_lines(CARD, (Lesson("a piece", "single", 20, (6.6, 0.2), None),))
    assert line.startswith("Single knot: take-up 5.59 ± ")
    assert line.count(" ± ") == 2
    assert line.endswith(" mm.")
    assert " → " in line
    assert "length" not in line
    assert lesson_lines(CARD, ()) == ()


@pytest.mark.parametrize(
    ("left_mm", "layers", "said"),
    [
        (149.0, 1, "14.9 cm of cord left."),
        (230.0, 1, "23 cm of cord left: worth keeping, long enough for test knots."),
        (230.0, 2, "23 cm of cord a layer left: worth keeping, long enough for test knots."),
    ],
)
def test_what_is_left_of_the_cord(left_mm, layers, said) -> None:
    assert left_words(left_mm, layers, "cm") == said
