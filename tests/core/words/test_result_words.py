"""What a finished piece came to, in words."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.journal.pace import seconds_worked
from companion.core.journal.piece import Piece
from companion.core.values.design import Size
from companion.core.words.result_words import good_sentence
from tests.core.hand_plans import hand_plan


@pytest.mark.parametrize(
    ("finished_mm", "sentence"),
    [
        (None, "It is finished."),
        (200.0, "It came out exactly at 200 mm."),
        (202.0, "It came out at 202 mm, 2 mm over 200 mm: as near as you asked for."),
        (190.0, "It came out at 190 mm, 10 mm short of 200 mm."),
    ],
)
def test_one_good_sentence(finished_mm: float | None, sentence: str) -> None:
    plan = replace(hand_plan(size=Size("length", 200.0), unit="mm"), target_mm=200.0, tolerance_mm=3.0)
    assert good_sentence(plan, replace(Piece(), finished_mm=finished_mm)) == sentence


def test_pauses_and_clocks_set_back_are_left_out() -> None:
    assert seconds_worked([0, 10, 30, 10_000, 10_020, 5_000, 5_030]) == 10 + 20 + 20 + 30
    assert seconds_worked([]) == 0
