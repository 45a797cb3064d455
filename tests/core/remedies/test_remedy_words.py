"""What a remedy would mean, in words."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_words import effect_words, outcome_words
from tests.core.hand_plans import hand_plan

PLAN = hand_plan(unit="mm")
REMEDY = Remedy("", "", 203.0, 5.0, 0.84, 14.0, 0.004)


@pytest.mark.parametrize(
    ("remedy", "said"),
    [
        (REMEDY, "84 % within tolerance. Takes 14 mm more cord a layer."),
        (replace(REMEDY, cord_mm=-14.0), "84 % within tolerance. Saves 14 mm of cord a layer."),
        (replace(REMEDY, cord_mm=0.9, p_in_tolerance=0.001), "Under 1 % within tolerance."),
        (replace(REMEDY, p_in_tolerance=None, cord_mm=0.0, p_run_out=0.3), "30 % that the cord runs out."),
        (replace(REMEDY, join=True, p_run_out=0.3), "84 % within tolerance. The cord then reaches."),
        (replace(REMEDY, p_in_tolerance=None, cord_mm=0.0), ""),
    ],
)
def test_its_chance_and_its_cord(remedy, said) -> None:
    assert effect_words(PLAN, remedy) == said
    assert outcome_words(PLAN, remedy) == f"203 ± 5 mm finished. {said}".rstrip()
