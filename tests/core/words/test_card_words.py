"""A card in one line, a card that is not the design's, and what a card would learn."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.cord.cards import CardTest, CordCard, card_figures
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.cord.lessons import Lesson
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, Repeat, Strand
from companion.core.words.card_words import card_in_short, lesson_lines


def card(layers: int = 1, diameter_mm: float = 0.6) -> CordCard:
    tests = tuple(
        CardTest("single", KnotTest(203.2, 203.2 - mm, 1), TouchingRow(2.0, 1), f"{mm}") for mm in (6.2, 6.4, 6.35)
    )
    return CordCard("waxed linen", diameter_mm, layers, "waxed linen", "awl", tests)


def test_one_line() -> None:
    assert card_in_short(card()).startswith("waxed linen 0.6: 6.3 ± ")
    assert card_in_short(card()).endswith(" mm a single knot (3 tests)")
    assert ", doubled: " in card_in_short(card(2))
    assert card_in_short(replace(card(), tests=())) == "waxed linen 0.6: no tests yet"


@pytest.mark.parametrize(
    ("layers", "diameter_mm", "codes"),
    [(1, 0.6, []), (2, 0.6, ["card of other layers"]), (1, 0.9, ["card of another cord"])],
)
def test_a_card_of_another_cord_is_said(layers, diameter_mm, codes) -> None:
    cord = CordDesign("linen", 0.6, 1, "waxed linen", card="waxed linen")
    kinds = (BeadKind("b", "Bead", 6, 6, 1.0),)
    design = Design("Light", cord, kinds, (Strand((Repeat(9, (Bead("b"), Knot("single"))),)),))
    plan = compile_plan(design, card_figures(card(layers, diameter_mm)))
    assert [warning.code for warning in plan.warnings] == codes
    assert plan.cord.single.source == "card"


def test_a_lesson_says_what_the_card_says_now_and_then() -> None:
    silk = CordCard("silk", 0.5, tests=(CardTest("single", KnotTest(200.0, 194.0, 1)),))
    (line,) = lesson_lines(silk, (Lesson("a piece", "single", 20, (6.6, 0.2), None),))
    assert line.startswith("Single knot: take-up 5.59 ± ")
    assert line.count(" ± ") == 2
    assert line.endswith(" mm.")
    assert " → " in line
    assert "length" not in line
    assert lesson_lines(silk, ()) == ()
