"""Test knots against practice and the guide to uncertainty, and what more of them do."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from companion.core.cord.cards import (
    CardTest,
    CordCard,
    card_figures,
    half95_mm,
    impossible,
    knot_figures,
    narrowing,
    questioned,
)
from companion.core.cord.cord import cord_of, estimate
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Lengths
from companion.core.cord.knot_tests import joined, reading_sd_mm
from companion.core.values.assumptions import USUAL
from companion.core.values.design import CordDesign
from companion.core.values.lengths import read_length_mm

NO_HANDLING = replace(USUAL, test_handling_mm=0.0)
LINEN = CordDesign("linen", 0.6, material="waxed linen")


def card_of(*take_ups_mm: float) -> CordCard:
    tests = tuple(CardTest("single", Row(200.0, 200.0 - t, 1, 1.0)) for t in take_ups_mm)
    return CordCard("linen", 0.6, material="waxed linen", tests=tests)


def test_a_knot_in_eight_inches() -> None:
    """Common practice among makers, no source: 8 in of waxed linen with one overhand knot measures 7 3/4 in."""
    row = Row(float(read_length_mm("8 in")), float(read_length_mm("7 3/4 in")), 1, 25.4 / 16)
    assert row.take_up_mm == pytest.approx(6.35)
    assert reading_sd_mm(row, NO_HANDLING) == pytest.approx(0.648, abs=5e-4)


@pytest.mark.parametrize("ruler_mm", [0.5, 1.0, 1.5875])
@pytest.mark.parametrize("knots", [1, 4])
def test_two_rectangular_readings(ruler_mm: float, knots: int) -> None:
    """JCGM 100:2008, F.2.2.1: a reading's variance is r²/12, so two of them have r²/6, shared by the knots."""
    assert reading_sd_mm(Row(200.0, 190.0, knots, ruler_mm), NO_HANDLING) == pytest.approx(
        sqrt(2 * ruler_mm**2 / 12) / knots
    )


def test_without_beliefs_the_mean_and_its_error_are_the_textbook_ones() -> None:
    """Take-ups 24 26 25 27 23: mean 25, s = √2.5, s/√5 on 4 degrees of freedom (JCGM 100:2008, 4.2)."""
    found = joined(None, [(t, 1, 0.0) for t in (24.0, 26.0, 25.0, 27.0, 23.0)], 0.12, 0.0)
    assert (found.mean_mm, found.degrees) == (25.0, 4.0)
    assert found.scatter_mm == pytest.approx(sqrt(2.5))
    assert found.sd_mm == pytest.approx(sqrt(2.5 / 5))


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
    [(201.0, "longer after"), (200.0, "swallowed no cord"), (176.0, "40 times"), (176.1, None), (194.0, None)],
)
def test_rows_that_can_hardly_be_right(after_mm: float, words: str | None) -> None:
    row = Row(200.0, after_mm, 1)
    found = questioned(row, 0.6)
    assert (words in found) if words else found is None
    assert impossible(row) == (after_mm > 200)
