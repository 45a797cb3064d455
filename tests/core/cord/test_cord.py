"""What a knot takes, estimated from the cord alone.

Figures from outside have their source beside them. Where it says "common practice, no source" or "own computation" that
is all there is; nothing here is invented.
"""

from __future__ import annotations

import pytest

from companion.core.cord.cord import estimate
from companion.core.values.design import CordDesign
from tests.core.hand_designs import INCH
from tests.core.outside.cords import MEASURED_LENGTH, MEASURED_TAKE_UP, ROPELENGTH
from tests.core.outside.outside import rows


@pytest.mark.parametrize(("kind", "take_up"), [("single", 10.10), ("double", 17.3), ("triple", 24.5)])
def test_take_up_of_ideal_rope(kind, take_up) -> None:
    """Own minimisation of tight open knots; ropelength slope of Gilbert's line, Knot Atlas "Ideal Knots". 25 %."""
    figures = estimate(CordDesign("c", 1.0), kind)
    assert figures.take_up_mm == pytest.approx(take_up, abs=0.15)
    assert figures.take_up_sd_mm == pytest.approx(0.25 * take_up, rel=0.01)


@pytest.mark.parametrize(("kind", "next_kind", "more"), rows(ROPELENGTH))
def test_ropelength_slope_per_extra_pass(kind, next_kind, more) -> None:
    """Closed 3_1, 5_1, 7_1 lie on a line: two crossings, 7.14 d, an extra pass."""
    cord = CordDesign("c", 1.0)
    added_mm = estimate(cord, next_kind).take_up_mm - estimate(cord, kind).take_up_mm
    assert added_mm == pytest.approx(more, abs=0.15)


@pytest.mark.parametrize(("material", "diameter_mm", "figure", "measured_mm"), rows(MEASURED_TAKE_UP, MEASURED_LENGTH))
def test_knots_that_others_measured(material, diameter_mm, figure, measured_mm) -> None:
    """Within what the estimate itself calls 95 %."""
    figures = estimate(CordDesign("c", diameter_mm, material=material), "single")
    sd_mm = getattr(figures, figure.replace("_mm", "_sd_mm"))
    assert abs(getattr(figures, figure) - measured_mm) < 1.96 * sd_mm


@pytest.mark.parametrize(("kind", "low", "high"), [("single", 2.3, 3.34), ("double", 4.4, 5.33), ("triple", 6.5, 7.51)])
def test_knot_length_between_contacts_and_body(kind, low, high) -> None:
    """Axial span of the contacts and whole body of tight open knots: own computation, in the family of Pieranski et
    al., New J. Phys. 3 (2001) 10."""
    assert low < estimate(CordDesign("c", 1.0), kind).length_mm < high


def test_two_layers_knotted_together() -> None:
    """Per layer 13.6 d at best, other lays to 15.1; body 4.6 to 4.7: own minimisation of four lays."""
    figures = estimate(CordDesign("c", 1.0, layers=2), "single")
    assert 13.6 <= figures.take_up_mm <= 15.1
    assert figures.length_mm < 4.7


def test_a_quarter_inch_for_waxed_linen() -> None:
    """8 in of waxed linen with one overhand measures 7 3/4 in: common practice, no source. 0.6 mm cord."""
    taken = (8 - 7.75) * INCH
    figures = estimate(CordDesign("linen", 0.6, material="waxed linen"), "single")
    assert figures.take_up_mm == pytest.approx(taken, abs=0.3)
    assert INCH / taken == 4  # four such knots swallow an inch


def test_a_quarter_inch_that_was_measured() -> None:
    """4 in of 0.8 mm waxed linen, one knot, 3.75 in: J. Barst, "7 Top Cord Knotting Tips and Tricks", Jewelry Tutorial
    HQ. Less than the estimate says, by about its standard deviation."""
    figures = estimate(CordDesign("linen", 0.8, material="waxed linen"), "single")
    assert abs(figures.take_up_mm - 0.25 * INCH) < 1.05 * figures.take_up_sd_mm


def test_order_of_knots_and_stiffness() -> None:
    """A double passes the end once more, a triple twice more; stiffer cord takes more: common practice, no source."""
    leather = estimate(CordDesign("l", 2.0, material="leather"), "single")
    cotton = estimate(CordDesign("c", 2.0, material="cotton"), "single")
    assert leather.take_up_mm > cotton.take_up_mm
    assert leather.take_up_sd_mm / leather.take_up_mm > cotton.take_up_sd_mm / cotton.take_up_mm
