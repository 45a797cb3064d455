"""Rules of the trade, against where they are written down."""

from __future__ import annotations

import pytest

from companion.core.values.design import Size
from companion.core.values.lengths import MM_PER_INCH
from companion.core.words.trade_rules import length_name, three_beads_rule_mm
from tests.core.hand_plans import hand_plan


@pytest.mark.parametrize(
    ("inches", "name"),
    [(12.5, "collar"), (15, "choker"), (18, "princess"), (22, "matinee"), (30, "opera"), (45, "rope")],
)
def test_names_of_necklace_lengths(inches, name) -> None:
    """International Gem Society charts; Glossaria, "Pearl Necklace Lengths" (collar 12-13). Lists overlap."""
    assert length_name(inches * MM_PER_INCH) == name


def test_what_is_shorter_than_a_collar_has_no_name() -> None:
    assert length_name(11.9 * MM_PER_INCH) == ""


def test_the_rule_of_three_beads_is_for_wrists() -> None:
    assert three_beads_rule_mm(hand_plan(size=Size("neck", 400.0, 10.0))) is None
    assert three_beads_rule_mm(hand_plan()) is None
