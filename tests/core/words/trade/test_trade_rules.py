"""Rules of the trade, against where they are written down."""

from __future__ import annotations

import pytest

from companion.core.values.design import Size
from companion.core.values.measures.units import MM_PER_INCH
from companion.core.words.trade.trade_rules import length_name, three_beads_rule_mm
from tests.core.hand_plans import hand_plan
from tests.core.outside.outside import rows
from tests.core.outside.pieces import GLOSSARIA_NAMES, OTHER_NAMES


@pytest.mark.parametrize(
    ("inches", "name"),
    [(15, "choker"), (18, "princess"), (19.4, "princess"), (19.6, "matinee"), (22, "matinee"), (24.9, "matinee"),
     (26, ""), (27.1, "opera"), (30, "opera"), (45, "rope"), (13.5, "")],
)  # fmt: skip
@pytest.mark.parametrize("size", [Size("neck", 400.0), Size("length", 400.0), None])
def test_names_of_necklace_lengths(inches, name, size) -> None:
    """International Gem Society, "Bead and Necklace Size Charts": choker 14-16, princess 16-19, matinee 20-24, opera
    28-32, rope over 32 in. Between two names the nearer; none where neither is within an inch (our own choice)."""
    assert length_name(hand_plan(finished_mm=inches * MM_PER_INCH, size=size)) == name


@pytest.mark.parametrize(("inches", "name"), rows(GLOSSARIA_NAMES, OTHER_NAMES))
def test_names_that_others_give(inches, name) -> None:
    assert length_name(hand_plan(finished_mm=inches * MM_PER_INCH, size=Size("neck", 400.0))) == name


def test_what_goes_twice_round_a_wrist_is_no_necklace() -> None:
    assert length_name(hand_plan(finished_mm=15 * MM_PER_INCH, size=Size("wrist", 165.0, turns=2))) == ""


def test_a_bracelet_has_no_name() -> None:
    assert length_name(hand_plan(finished_mm=11.9 * MM_PER_INCH, size=Size("length", 300.0))) == ""


def test_the_rule_of_three_beads_is_for_wrists() -> None:
    assert three_beads_rule_mm(hand_plan(size=Size("neck", 400.0, 10.0))) is None
    assert three_beads_rule_mm(hand_plan()) is None
