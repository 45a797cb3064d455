"""The end of a piece: how long it came out, what is left of the cord."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.words.finish_words import aimed_at, can_be_right, finish_line, left_words
from tests.core.hand_plans import hand_plan


@pytest.mark.parametrize(
    ("left_mm", "layers", "said"),
    [
        (149.0, 1, "14.9 cm of cord left."),
        (230.0, 1, "23 cm of cord left: worth keeping, for test knots if nothing else."),
        (230.0, 2, "23 cm of each cord left: worth keeping, for test knots if nothing else."),
    ],
)
def test_what_is_left_of_the_cord(left_mm, layers, said) -> None:
    assert left_words(left_mm, layers, "cm") == said


@pytest.mark.parametrize(
    ("length_mm", "said", "likely"),
    [
        (200.5, "201 mm: as it should be.", True),
        (203.0, "203 mm: 3 mm over 200 mm.", True),
        (90.0, "90 mm: 110 mm short of 200 mm.", False),
    ],
)
def test_a_finished_length_is_held_against_the_plan(length_mm, said, likely) -> None:
    plan = hand_plan(unit="mm")
    assert aimed_at(plan) == ("planned", 200.0)
    assert finish_line(plan, length_mm) == said
    assert can_be_right(plan, length_mm) == likely


def test_a_target_goes_before_the_plan() -> None:
    plan = replace(hand_plan(unit="mm"), target_mm=210.0)
    assert aimed_at(plan) == ("the target is", 210.0)
    assert finish_line(plan, 212.0) == "212 mm: 2 mm over 210 mm."
