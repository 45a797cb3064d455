"""Whether a cord passes a hole and whether a knot stops at it.

Figures from outside have their source beside them. Where it says "common practice, no source" or "own computation" that
is all there is; nothing here is invented.
"""

from __future__ import annotations

import numpy as np
import pytest

from companion.core.cord.holes import PACKING, holds, least_hole_mm, packing_ratio
from tests.core.outside.cords import PACKINGS, PACKINGS_BEYOND
from tests.core.outside.outside import rows


def test_cords_in_a_hole() -> None:
    """Circles packed in a circle: S. Kravitz, Math. Mag. 40 (1967); Graham (1968), Pirl (1969). n = 1 … 8."""
    table = [1, 2, 2.1547, 2.4142, 2.7013, 3, 3, 3.3048]
    assert [packing_ratio(n) for n in range(1, 9)] == pytest.approx(table, abs=5e-4)


@pytest.mark.parametrize(("cords", "published"), rows(PACKINGS))
def test_cords_in_a_hole_that_were_published(cords, published) -> None:
    """The table cuts its figures off after three digits."""
    assert published <= packing_ratio(cords) < published + 0.001


@pytest.mark.parametrize(("cords", "published"), rows(PACKINGS_BEYOND))
def test_beyond_the_table_a_hole_is_never_called_too_small(cords, published) -> None:
    assert cords > len(PACKING)
    assert published < packing_ratio(cords) < 1.05 * published


def test_a_cord_more_never_passes_a_smaller_hole() -> None:
    ratios = [packing_ratio(n) for n in range(1, 30)]
    assert ratios == sorted(ratios)


def test_hole_for_two_and_three_passes_of_0_7_mm() -> None:
    """From the same packings."""
    assert least_hole_mm(0.7, 2) == pytest.approx(1.40, abs=0.005)
    assert least_hole_mm(0.7, 3) == pytest.approx(1.51, abs=0.005)


def test_packings_beyond_eight_are_no_smaller_than_the_area_allows() -> None:
    """n circles of area 1 in a circle of area K² can fill no more than it: a bound, whatever the remembered figures."""
    for n in range(9, 40):
        assert packing_ratio(n) > np.sqrt(n / 0.9069)  # the densest packing of the plane


def test_a_knot_of_three_diameters_holds_or_slips() -> None:
    """Width across of a tight open knot in ideal rope, 2.9 to 3.05 d (own computation)."""
    assert holds("single", 1.0, 1, 2.9) == "holds"
    assert holds("single", 1.0, 1, 3.1) == "slips"


def test_extra_passes_hardly_widen_a_knot() -> None:
    """Width across of tight open knots, 2.9-3.05, 3.0-3.2, 3.0-3.2 d (own computation): a wide hole stays too wide."""
    assert holds("double", 1.0, 1, 3.0) == holds("triple", 1.0, 1, 3.0) == "holds"
    assert holds("double", 1.0, 1, 3.4) == holds("triple", 1.0, 1, 3.4) == "test"
    assert holds("triple", 1.0, 1, 4.3) == "slips"
