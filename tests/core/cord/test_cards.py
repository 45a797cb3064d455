"""A cord card: its figures, what more tests do for them, and tests that can hardly be right."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.cord.cards import (
    CardTest,
    CordCard,
    card_figures,
    card_test_doubt,
    half95_mm,
    impossible,
    knot_figures,
    narrowing,
    row_doubt,
)
from companion.core.cord.cord import cord_of, estimate
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Lengths
from companion.core.values.design import CordDesign

LINEN = CordDesign("linen", 0.6, material="waxed linen")


def card_of(*take_ups_mm: float) -> CordCard:
    tests = tuple(CardTest("single", Row(200.0, 200.0 - t, 1, 1.0)) for t in take_ups_mm)
    return CordCard("linen", 0.6, material="waxed linen", tests=tests)


def test_more_tests_narrow() -> None:
    widths = [narrowing(card_of(*[6.0, 6.6, 6.3] * count), "single")[0] for count in (1, 2, 4)]
    assert widths == sorted(widths, reverse=True)
    none, _ = narrowing(card_of(), "single")
    assert none > widths[0]


def test_what_more_tests_would_do_is_what_they_do() -> None:
    """Promised from three tests, then kept by more of the same kind, nearly."""
    _, ((more, promised), _) = narrowing(card_of(6.0, 6.6, 6.3), "single", (3, 6))
    kept, _ = narrowing(card_of(*[6.0, 6.6, 6.3] * 2), "single")
    assert more == 3
    assert promised == pytest.approx(kept, rel=0.05)


def test_one_odd_row_widens_and_moves_little() -> None:
    even, odd = card_of(*[6.0, 6.6, 6.3] * 3), card_of(*[6.0, 6.6, 6.3] * 3, 12.0)
    before, after = knot_figures(even, "single"), knot_figures(odd, "single")
    assert 0 < after.take_up_mm - before.take_up_mm < 0.2 * (12.0 - before.take_up_mm)
    assert after.take_up_scatter_mm > before.take_up_scatter_mm


def test_a_row_of_knots_counts_its_knots() -> None:
    """Four knots in one length tell as much of their mean as four lengths would, and with less reading error."""
    one = CordCard("linen", 0.6, tests=(CardTest("single", Row(200.0, 176.0, 4)),))
    four = card_of(6.0, 6.0, 6.0, 6.0)
    assert knot_figures(one, "single").take_up_sd_mm < knot_figures(four, "single").take_up_sd_mm


@pytest.mark.parametrize("take_ups", [(), (6.0,), (6.0, 6.0, 6.0), (0.0, 0.0), (190.0,)])
def test_nothing_typed_in_breaks_the_sum(take_ups: tuple[float, ...]) -> None:
    now, more = narrowing(card_of(*take_ups), "single")
    assert 0 < now < 1000
    assert all(0 < then < now for _, then in more)


def test_the_kinds_that_were_tried_come_from_the_card_and_the_others_from_the_diameter() -> None:
    card = replace(card_of(6.4), tests=(CardTest("double", None, Lengths(15.0, 5)),))
    cord = cord_of(LINEN, card_figures(card))
    assert (cord.card, cord.double.source, cord.single) == ("linen", "card", estimate(LINEN, "single"))
    assert cord.double.take_up_mm == estimate(LINEN, "double").take_up_mm


def test_the_interval_is_students() -> None:
    """t at 97.5 % with 4 degrees of freedom is 2.776 (JCGM 100:2008, table G.2: 2.78)."""
    assert half95_mm(1.0, 4.0) == pytest.approx(2.776, abs=5e-4)


@pytest.mark.parametrize(
    ("after_mm", "words"),
    [(201.0, "longer after"), (200.0, "used up no cord"), (176.0, "40 times"), (176.1, None), (194.0, None)],
)
def test_rows_that_can_hardly_be_right(after_mm: float, words: str | None) -> None:
    row = Row(200.0, after_mm, 1)
    found = row_doubt(row, 0.6)
    assert (words in found) if words else found is None
    assert impossible(row) == (after_mm > 200)


@pytest.mark.parametrize(
    ("test", "odd"),
    [
        (CardTest("single", Row(200.0, 193.0, 1), Lengths(12.0, 5)), ""),
        (CardTest("single", Row(200.0, 180.0, 1)), "40 times"),
        (CardTest("single", None, Lengths(60.0, 5)), ""),
        (CardTest("single", None, Lengths(100.0, 5)), "40 times as long as the cord is thick"),
        (CardTest("single", None, Lengths(2.0, 5)), "0.8 times"),
    ],
)
def test_what_is_odd_is_questioned(test, odd) -> None:
    question = card_test_doubt(test, 0.5)
    assert odd in question if odd else question is None
