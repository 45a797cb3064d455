"""Normal and Student distributions, degrees of freedom and conformity, against published tables and scipy."""

from __future__ import annotations

from math import atan, floor, inf, pi, sqrt, tan

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy import integrate, stats

from companion.core.maths.distributions import (
    effective_degrees,
    normal_cdf,
    normal_quantile,
    normal_sf,
    student_quantile,
    student_sf,
    within,
)
from tests.core.outside.outside import rows
from tests.core.outside.statistics import (
    EFFECTIVE_DEGREES,
    GUM_QUANTILES,
    NORMAL_AREAS,
    NORMAL_QUANTILES,
    STUDENT_QUANTILES,
)

CHANCES = st.one_of(
    st.floats(1e-12, 0.49), st.floats(0.51, 1 - 1e-9), st.floats(-12, -0.4).map(lambda power: 10**power)
)
DEGREES = st.one_of(st.floats(0.5, 60), st.floats(-0.3, 9).map(lambda power: 10**power), st.sampled_from([9999.9, 1e4]))


@pytest.mark.parametrize(("p", "z"), rows(NORMAL_QUANTILES))
def test_normal_quantiles_of_the_handbook(p, z):
    assert normal_quantile(p) == pytest.approx(z, abs=5e-4)
    assert student_quantile(p, inf) == normal_quantile(p)


@pytest.mark.parametrize(("z", "area"), rows(NORMAL_AREAS))
def test_normal_areas(z, area):
    assert 0.5 - normal_sf(z) == pytest.approx(area, abs=5e-5)
    assert normal_cdf(z) - 0.5 == pytest.approx(area, abs=5e-5)


@pytest.mark.parametrize(("p", "degrees", "t", "by"), rows(STUDENT_QUANTILES, GUM_QUANTILES))
def test_student_quantiles_that_were_published(p, degrees, t, by):
    assert student_quantile(p, degrees) == pytest.approx(t, abs=by)


# Source: JCGM 100:2008 (GUM), table G.2, 95 % (the guide's own rounding).
@pytest.mark.parametrize(
    ("degrees", "t"), [(1, 12.71), (2, 4.30), (3, 3.18), (4, 2.78), (9, 2.26), (16, 2.12), (inf, 1.960)]
)
def test_student_table_of_the_gum(degrees, t):
    assert student_quantile(0.975, degrees) == pytest.approx(t, abs=0.00501)


@given(st.floats(-37, 37))
def test_normal_equals_scipy(z):
    assert normal_cdf(z) == pytest.approx(stats.norm.cdf(z), rel=1e-12, abs=0)
    assert normal_sf(z) == pytest.approx(stats.norm.sf(z), rel=1e-12, abs=0)


@given(st.one_of(CHANCES, st.floats(-300, -1).map(lambda power: 10**power)))
def test_normal_quantile_equals_scipy(p):
    assert normal_quantile(p) == pytest.approx(stats.norm.ppf(p), rel=1e-12, abs=0)


@given(st.one_of(st.floats(0.01, 6), st.floats(6, 25)), DEGREES)
def test_student_equals_scipy(t, degrees):
    far = stats.t.sf(t, degrees)
    assert student_sf(t, degrees) == pytest.approx(far, rel=1e-11, abs=0)
    assert student_sf(-t, degrees) == pytest.approx(1 - far, rel=1e-12, abs=0)


@given(CHANCES, DEGREES)
def test_student_quantile_equals_scipy(p, degrees):
    assert student_quantile(p, degrees) == pytest.approx(stats.t.ppf(p, degrees), rel=1e-9, abs=0)


@pytest.mark.parametrize("degrees", [150.0, 199.0, 201.0, 1_000.0, 9_999.0, 10_000.0, 30_000.0, 1e7])
@pytest.mark.parametrize("t", [1.0, 1.8, 6.0, 20.0, 36.0])
def test_many_degrees_equal_their_integral(t, degrees):
    """On both sides of where one way of computing takes over from another, against quadrature of the density."""
    power = (degrees + 1) / 2
    ratio, _ = integrate.quad(
        lambda s: np.exp(-power * np.log1p((2 * t * s + s * s) / (degrees + t * t))),
        0,
        60 / t + 20 * t / sqrt(degrees),
        epsabs=0,
        epsrel=1e-12,
        limit=400,
    )
    assert np.log(student_sf(t, degrees)) == pytest.approx(stats.t.logpdf(t, degrees) + np.log(ratio), abs=5e-12)


# One and two degrees have closed forms (Abramowitz and Stegun 26.7.3, 26.7.4, first terms): no library in between.
@pytest.mark.parametrize("away", [1e-14, 1e-9, 1e-4, 0.2, 0.4999])
def test_closed_forms_hold_up_to_the_median(away):
    p = 0.5 + away
    off = p - 0.5
    cauchy, two = tan(pi * off), 2 * off * sqrt(2 / (1 - 4 * off * off))
    assert student_quantile(p, 1) == pytest.approx(cauchy, rel=1e-12, abs=0)
    assert student_quantile(1 - p, 1) == pytest.approx(-cauchy, rel=1e-12, abs=0)
    assert student_quantile(p, 2) == pytest.approx(two, rel=1e-12, abs=0)
    assert student_sf(-cauchy, 1) == pytest.approx(0.5 + atan(cauchy) / pi, rel=1e-15)
    assert student_quantile(p, 1e9) == pytest.approx(normal_quantile(p), rel=1e-8, abs=0)


@pytest.mark.parametrize("degrees", [0.5, 3, 200, 1e6, inf])
def test_the_middle_is_the_middle(degrees):
    assert student_quantile(0.5, degrees) == 0
    assert student_sf(0, degrees) == 0.5


@pytest.mark.parametrize("degrees", [0.5, 3.5, 200, 1e6, inf])
def test_there_is_no_chance_beyond_everything(degrees):
    assert student_sf(inf, degrees) == 0
    assert student_sf(-inf, degrees) == 1


@given(st.floats(-300, -0.5).map(lambda power: 10**power), DEGREES)
@example(1.6e-306, 997.0)
@example(1e-304, 2e4)
@example(1e-300, 283.0)
def test_a_quantile_far_out_gives_its_chance_back(p, degrees):
    t = student_quantile(p, degrees)
    if t == -inf:  # beyond the largest float: so is its chance
        assert p < student_sf(1e308, degrees)
    else:
        assert student_sf(-t, degrees) == pytest.approx(p, rel=1e-8, abs=0)


@pytest.mark.parametrize("p", [0, 1, -0.1, 1.1, float("nan")])
def test_a_chance_lies_between_nought_and_one(p):
    with pytest.raises(ValueError, match="between 0 and 1"):
        normal_quantile(p)
    with pytest.raises(ValueError, match="between 0 and 1"):
        student_quantile(p, 4)


@pytest.mark.parametrize("degrees", [0, -1, float("nan")])
def test_degrees_are_above_nought(degrees):
    with pytest.raises(ValueError, match="above 0"):
        student_sf(1, degrees)
    with pytest.raises(ValueError, match="above 0"):
        student_quantile(0.5, degrees)


@pytest.mark.parametrize(("parts", "degrees", "by"), rows(EFFECTIVE_DEGREES))
def test_effective_degrees_of_the_gum(parts, degrees, by):
    assert effective_degrees(parts) == pytest.approx(degrees, abs=by)


# Source: JCGM 100:2008 (GUM), H.1, the end gauge: nm and degrees.
END_GAUGE = [(25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)]


def test_end_gauge_of_the_gum():
    degrees = effective_degrees(END_GAUGE)
    assert floor(degrees) == 16
    combined = sqrt(sum(sd * sd for sd, _ in END_GAUGE))
    assert combined == pytest.approx(32, abs=0.5)
    factor = student_quantile(0.995, floor(degrees))
    assert factor == pytest.approx(2.92, abs=0.005)
    assert floor(factor * 32) == 93


def test_degrees_of_a_sum():
    assert effective_degrees([]) == effective_degrees([(0, 3)]) == effective_degrees([(2, inf)]) == inf
    assert effective_degrees([(0.7, 5), (0, 1)]) == pytest.approx(5)
    assert effective_degrees([(3, 4), (3, 4)]) == pytest.approx(8)
    assert effective_degrees([(3, 4), (3, inf)]) == pytest.approx(16)


@pytest.mark.parametrize("unit", [1e-120, 1e120])
def test_degrees_of_a_sum_know_no_unit(unit):
    assert effective_degrees([(sd * unit, d) for sd, d in END_GAUGE]) == pytest.approx(effective_degrees(END_GAUGE))


# Source: JCGM 106:2012, clause 7, examples (numbers from memory).
def test_conformity_within_one_limit_and_two():
    assert within(-5.40, inf, -5.47, 0.05) == pytest.approx(1 - 0.92, abs=0.005)
    assert within(-inf, -5.40, -5.47, 0.05) == pytest.approx(0.92, abs=0.005)
    assert within(12.5, 16.3, 13.6, 1.8) == pytest.approx(0.66, abs=0.005)


@pytest.mark.parametrize(("mean", "chance"), [(4.9, 0), (5, 1), (6, 1), (7, 1), (7.1, 0)])
def test_within_without_width(mean, chance):
    assert within(5, 7, mean, 0) == chance


@given(st.floats(-8, 8), st.floats(0.01, 4))
def test_within_keeps_small_chances(low, wide):
    wanted, _ = integrate.quad(stats.norm.pdf, low, low + wide, epsabs=0, epsrel=1e-11)
    assert within(10 + 2 * low, 10 + 2 * (low + wide), 10, 2) == pytest.approx(wanted, rel=1e-9, abs=0)


# Two ways, our own: by formula with scipy's quantile, and 40,000 simulated pieces (1.0 ± 0.16 % ran out at 99 %).
@pytest.mark.parametrize(("p", "cord_mm"), [(0.95, 1594.139805), (0.99, 1665.460717)])
def test_cord_for_sixty_knots_after_five_tests(p, cord_mm):
    tests, knots = [24, 26, 25, 27, 23], 60
    mean = sum(tests) / len(tests)
    scatter = sqrt(sum((test - mean) ** 2 for test in tests) / (len(tests) - 1))
    spread = scatter * sqrt(knots + knots**2 / len(tests))
    assert knots * mean + student_quantile(p, len(tests) - 1) * spread == pytest.approx(cord_mm, abs=1e-6)


def test_share_of_simulated_cords_that_run_out():
    """The rule of the test above, as often wrong as it says: 40,000 makers with five test knots each."""
    draw = np.random.default_rng(11)
    tests, opened = draw.normal(25, 1.6, (40_000, 5)), draw.normal(25 * 60, 1.6 * sqrt(60), 40_000)
    spread = tests.std(axis=1, ddof=1) * sqrt(60 + 60**2 / 5)
    cut = 60 * tests.mean(axis=1) + student_quantile(0.99, 4) * spread
    assert np.mean(opened > cut) == pytest.approx(0.01, abs=0.002)


def test_a_cut_two_deviations_above_the_need():
    """Normal table: 2.275 % lie above two standard deviations."""
    assert normal_sf(2) == pytest.approx(0.02275, abs=1e-6)
    assert student_sf(2, inf) == normal_sf(2)
