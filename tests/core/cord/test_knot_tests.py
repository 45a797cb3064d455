"""Test knots against practice and the guide to uncertainty."""

from __future__ import annotations

from math import sqrt

import pytest
from msgspec.structs import replace

from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Lengths
from companion.core.cord.knot_tests import pooled, reading_sd_mm, touching_sd_mm
from companion.core.values.assumptions import USUAL
from companion.core.values.measures.lengths import read_length_mm
from tests.core.outside.outside import rows
from tests.core.outside.statistics import CERTIFIED_MEANS, GUM_MEANS, RESOLUTION, WEIGHTED_MEAN

NO_HANDLING = replace(USUAL, test_handling_mm=0.0)


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
    found = pooled(None, [(t, 1, 0.0) for t in (24.0, 26.0, 25.0, 27.0, 23.0)], 0.12, 0.0)
    assert (found.mean_mm, found.degrees) == (25.0, 4.0)
    assert found.scatter_mm == pytest.approx(sqrt(2.5))
    assert found.sd_mm == pytest.approx(sqrt(2.5 / 5))


@pytest.mark.parametrize(("data", "figure", "published", "by"), rows(CERTIFIED_MEANS, GUM_MEANS))
def test_means_that_were_published(data, figure, published, by) -> None:
    found = pooled(None, [(value, 1, 0.0) for value in data], 0.12, 0.0)
    assert getattr(found, figure) == pytest.approx(published, abs=by)
    assert found.degrees == len(data) - 1


@pytest.mark.parametrize(("figure", "published", "by"), rows(WEIGHTED_MEAN))
def test_readings_that_are_known_unequally_well(figure, published, by) -> None:
    found = pooled(None, [(11.0, 1, 1.0), (12.0, 1, 1.0), (10.0, 1, 3.0)], 0.0, 1.0)
    assert getattr(found, figure) == pytest.approx(published, abs=by)


@pytest.mark.parametrize(("resolution", "published"), rows(RESOLUTION))
def test_what_a_resolution_is_worth(resolution, published) -> None:
    assert touching_sd_mm(Lengths(1.0, 1, resolution), NO_HANDLING) == pytest.approx(published, rel=1e-4)


def test_one_rectangular_reading_of_a_touching_row() -> None:
    """JCGM 100:2008, 4.3.7: r/√12, shared by the knots."""
    row = Lengths(15.0, 5, 1.0)
    assert row.length_mm == pytest.approx(3.0)
    assert touching_sd_mm(row, NO_HANDLING) == pytest.approx(1 / sqrt(12) / 5)
