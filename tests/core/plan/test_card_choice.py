"""Which card a piece is made by, and what a card that is half tested says of the rest."""

from __future__ import annotations

import pytest

from companion.core.cord.cards import CardTest, CordCard, card_figures
from companion.core.cord.cord import cord_of
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Touching
from companion.core.plan.card_choice import by_fit, with_card, with_estimate
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Strand
from companion.core.words.cut_words import cut_list

OWN = (("single", KnotNumbers(6.0, 2.0)), ("double", KnotNumbers(9.0, 3.0)))
CORD = CordDesign("silk", 0.5, 2, "silk", knots=OWN)
DESIGN = Design(
    "Light", CORD, (BeadKind("b", "Bead", 6, 6, 1.2),), (Strand((Repeat(9, (Bead("b"), Knot("single"))),)),)
)
WHOLE = CardTest("single", Row(200.0, 193.0, 1), Touching(12.0, 5), "200 mm; 193 mm; 12 mm")


def card(name: str, diameter_mm: float = 0.5, layers: int = 2, *tests: CardTest) -> CordCard:
    return CordCard(name, diameter_mm, layers, "silk", "awl", tests or (WHOLE,))


def test_cards_of_this_cord_come_first_in_their_order() -> None:
    cards = [card("a", layers=1), card("b"), card("c", 0.8), card("d", 0.53), card("e", 0.44)]
    found = by_fit(cards, cord_of(CORD))
    assert [(one.name, fits) for one, fits in found] == [
        ("b", True), ("d", True), ("a", False), ("c", False), ("e", False),
    ]  # fmt: skip


def test_a_card_that_is_chosen_goes_before_the_designs_numbers_where_it_knows_better() -> None:
    chosen = card_figures(card("b"))
    plan = compile_plan(with_card(DESIGN, chosen), chosen)
    assert (plan.cord.single.source, plan.cord.double.source, plan.cord.triple.source) == ("card", "design", "estimate")
    assert plan.cord.single.take_up_mm == dict(chosen.knots)["single"].take_up_mm
    assert compile_plan(DESIGN, chosen).cord.single.source == "design"  # named in the design, its own numbers stand


def test_an_estimate_leaves_the_designs_numbers_out() -> None:
    plan = compile_plan(with_estimate(DESIGN))
    assert plan.cord.single.source == "estimate"
    assert [warning.code for warning in plan.warnings if warning.where == "cord"] == ["estimates"]


@pytest.mark.parametrize(
    ("test", "missing"),
    [
        (CardTest("single", Row(200.0, 193.0, 1)), "length"),
        (CardTest("single", None, Touching(12.0, 5)), "take-up"),
    ],
)
def test_half_a_test_says_what_is_estimated(test, missing) -> None:
    chosen = card_figures(card("b", 0.5, 2, test))
    plan = compile_plan(with_card(DESIGN, chosen), chosen)
    assert [warning.code for warning in plan.warnings if warning.where == "cord"] == ["estimates"]
    assert plan.warnings[0].text.startswith(f"The {missing} of the single knot is an estimate")
    assert any(line.text.endswith(f"(from the cord card b, the {missing} estimated)") for line in cut_list(plan))
    whole = card_figures(card("b"))
    assert compile_plan(with_card(DESIGN, whole), whole).warnings == ()
