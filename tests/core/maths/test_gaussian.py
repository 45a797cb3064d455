"""The growing Cholesky factor against numpy, and conditioning on readings against published and dense answers."""

from __future__ import annotations

from math import log, pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from companion.core.maths.gaussian import Cholesky, NotPositiveDefinite, conditioned
from tests.core.outside.outside import rows
from tests.core.outside.statistics import CERTIFIED_LINES, FACTORS

# Annual flow of the Nile at Aswan, 1871-1970, 10^8 m^3: from memory, checked by the published likelihood below.
NILE = """
1120 1160 963 1210 1160 1160 813 1230 1370 1140 995 935 1110 994 1020 960 1180 799 958 1140
1100 1210 1150 1250 1260 1220 1030 1100 774 840 874 694 940 833 701 916 692 1020 1050 969
831 726 456 824 702 1120 1100 832 764 821 768 845 864 862 698 845 744 796 1040 759
781 865 845 944 984 897 822 1010 771 676 649 846 812 742 801 1040 860 874 848 890
744 749 838 1050 918 986 797 923 975 815 1020 906 901 1170 912 746 919 718 714 740
"""


def factor_of(matrix) -> Cholesky:
    factor = Cholesky()
    for row, values in enumerate(matrix):
        factor = factor.extended([float(value) for value in values[:row]], float(values[row]))
    return factor


def log_determinant(factor: Cholesky) -> float:
    return 2 * sum(log(row[-1]) for row in factor.rows)


def log_density(factor: Cholesky, white) -> float:
    """Log density of the readings, from the factor of their covariance and their whitened innovation."""
    return -0.5 * (sum(value * value for value in white) + log_determinant(factor) + len(white) * log(2 * pi))


def random_covariance(seed: int, size: int):
    draw = np.random.default_rng(seed)
    loose = draw.normal(size=(size, size + 2)) * 10.0 ** draw.uniform(-2, 2, (size, 1))
    return draw, loose @ loose.T


@given(st.integers(0, 10**6), st.integers(1, 12))
def test_factor_and_solutions_equal_numpy(seed, size):
    draw, matrix = random_covariance(seed, size)
    factor, wanted = factor_of(matrix), np.linalg.cholesky(matrix)
    scale = np.sqrt(np.diag(matrix))
    for row, values in enumerate(factor.rows):
        assert len(values) == row + 1
        assert np.array(values) == pytest.approx(wanted[row, : row + 1], abs=1e-9 * scale[row])
    assert log_determinant(factor) == pytest.approx(np.linalg.slogdet(matrix)[1], abs=1e-8)
    vector = draw.normal(size=size) * scale
    assert wanted @ factor.solve_lower(vector) == pytest.approx(vector, abs=1e-9)


@pytest.mark.parametrize(("matrix", "factor"), rows(FACTORS))
def test_a_factor_that_was_published(matrix, factor):
    found = factor_of(matrix).rows
    assert [pytest.approx(row) for row in factor] == list(found)


@pytest.mark.parametrize(("points", "parameters", "which", "estimate", "sd"), rows(CERTIFIED_LINES))
def test_certified_lines(points, parameters, which, estimate, sd):
    """A line through the points by least squares, as what is known of its parameters after the points: the inverse of
    their normal equations is what conditioning takes off a variance."""
    powers = [[x**power for power in range(2 - parameters, 2)] for x, _ in points]
    normal = [[sum(row[a] * row[b] for row in powers) for b in range(parameters)] for a in range(parameters)]
    factor = factor_of(normal)
    sums = [sum(row[a] * y for row, (_, y) in zip(powers, points, strict=True)) for a in range(parameters)]
    unit = [float(place == which) for place in range(parameters)]
    white, column = factor.solve_lower(sums), factor.solve_lower(unit)
    found, left = conditioned(white, 0.0, 10.0, column)
    assert found == pytest.approx(estimate, rel=1e-9)
    squares = sum(y * y for _, y in points) - sum(value * value for value in white)
    assert sqrt(squares / (len(points) - parameters) * (10.0 - left)) == pytest.approx(sd, rel=1e-6)


def test_an_empty_factor_has_nothing_to_solve():
    assert Cholesky().solve_lower([]) == ()
    assert conditioned((), 5.0, 2.0, ()) == (5.0, 2.0)


def test_an_extended_factor_leaves_the_old_one_as_it_was():
    small = factor_of([[4.0, 2.0], [2.0, 5.0]])
    before = small.rows
    one, other = small.extended([1.0, 1.0], 9.0), small.extended([0.0, 3.0], 7.0)
    assert small.rows == before == ((2.0,), (1.0, 2.0))
    assert all(grown.rows[at] is small.rows[at] for grown in (one, other) for at in range(2))
    assert one.rows[2] != other.rows[2]


@pytest.mark.parametrize(
    ("column", "corner"), [([2.0], 1.0), ([2.0], 1.0 + 1e-13), ([2.0], 0.5), ([0.0], 0.0), ([0.0], -1.0)]
)
def test_a_reading_that_says_nothing_new_is_refused(column, corner):
    with pytest.raises(NotPositiveDefinite):
        factor_of([[4.0]]).extended(column, corner)
    assert issubclass(NotPositiveDefinite, ArithmeticError)


def test_a_reading_that_says_little_new_is_taken():
    assert factor_of([[4.0]]).extended([2.0], 1.0 + 1e-9).rows[1][1] == pytest.approx(sqrt(1e-9), rel=1e-6)


def test_not_a_number_is_refused():
    with pytest.raises(NotPositiveDefinite):
        Cholesky().extended([], float("nan"))
    with pytest.raises(NotPositiveDefinite):
        factor_of([[4.0]]).extended([float("nan")], 3.0)


def test_lengths_must_agree():
    factor = factor_of([[4.0, 2.0], [2.0, 5.0]])
    for wrong in ([1.0], [1.0, 2.0, 3.0]):
        with pytest.raises(ValueError):
            factor.solve_lower(wrong)
        with pytest.raises(ValueError):
            factor.extended(wrong, 9.0)


@given(st.integers(0, 10**6), st.integers(1, 8))
def test_posterior_and_density_equal_a_dense_solve(seed, readings):
    draw, joint = random_covariance(seed, readings + 1)
    scale = np.sqrt(np.diag(joint))
    joint = joint / np.outer(scale, scale) + 0.01 * np.eye(readings + 1)
    matrix, column = joint[1:, 1:], joint[0, 1:]
    off = draw.normal(size=readings)
    factor = factor_of(matrix)
    white = factor.solve_lower(off)
    mean, variance = conditioned(white, 3.0, joint[0, 0], factor.solve_lower(column))
    assert mean == pytest.approx(3 + column @ np.linalg.solve(matrix, off), abs=1e-9)
    assert variance == pytest.approx(1 / np.linalg.inv(joint)[0, 0], rel=1e-9)
    assert log_density(factor, white) == pytest.approx(
        stats.multivariate_normal(np.zeros(readings), matrix).logpdf(off)
    )


def test_a_variance_is_never_below_nought():
    factor = factor_of([[1e-9]])
    assert conditioned(factor.solve_lower([0.0]), 0.0, 1e-9, factor.solve_lower([1.0000001e-9]))[1] == 0


# Our own, two ways: the conjugate formula, and conditioning of all 80 knots at once. Knot mean N(4, 0.16), scatter 0.5,
# ten knots read 43.0 with u 0.6, mm.
def test_one_reading_of_ten_knots_foretells_eighty():
    factor = factor_of([[100 * 0.16 + 10 * 0.25 + 0.36]])
    white = factor.solve_lower([43.0 - 40.0])
    mean, _ = conditioned(white, 4.0, 0.16, factor.solve_lower([10 * 0.16]))
    assert mean == pytest.approx(4.254506892895, abs=1e-9)
    eighty = 80 * 80 * 0.16 + 80 * 0.25
    length, variance = conditioned(white, 320.0, eighty, factor.solve_lower([80 * 10 * 0.16 + 10 * 0.25]))
    assert length == pytest.approx(340.758218451750, abs=1e-9)
    assert sqrt(variance) == pytest.approx(11.875078835481, abs=1e-9)


# Source: Durbin and Koopman, "Time Series Analysis by State Space Methods", chapter 2 (likelihood and steady variance
# from memory): the Nile as a random walk under noise, variances 15099 and 1469.1, nothing known before the first year.
def test_the_nile_as_a_random_walk():
    noise, walk = 15099.0, 1469.1
    first, *flows = (float(flow) for flow in NILE.split())
    assert len(flows) == 99
    # given the first flow alone, the level starts there with the noise's variance and walks on
    factor = Cholesky()
    for year in range(1, 100):
        factor = factor.extended([noise + walk * earlier for earlier in range(1, year)], noise + walk * year + noise)
    white = factor.solve_lower([flow - first for flow in flows])
    assert log_density(factor, white) == pytest.approx(-632.546, abs=0.001)
    level_with_flows = factor.solve_lower([noise + walk * year for year in range(1, 100)])
    level, variance = conditioned(white, first, noise + 99 * walk, level_with_flows)
    assert variance == pytest.approx(4032.16, abs=0.02)
    assert level == pytest.approx(filtered_level(first, flows, noise, walk), abs=1e-6)


def filtered_level(level: float, flows: list[float], noise: float, walk: float) -> float:
    """The same by the Kalman recursion of that chapter, year by year."""
    variance = noise
    for flow in flows:
        ahead = variance + walk
        gain = ahead / (ahead + noise)
        level, variance = level + gain * (flow - level), ahead * (1 - gain)
    return level


def test_a_pivot_is_no_less_than_what_a_variable_has_of_its_own():
    """Two readings of one length that was known to 100 km before: their difference is their two errors, no rounding."""
    known, own = 1e16, 1.0
    with pytest.raises(NotPositiveDefinite):
        Cholesky().extended([], known + own).extended([known], known + own)
    factor = Cholesky().extended([], known + own, own=own).extended([known], known + own, own=own)
    assert factor.rows[1][1] >= 1.0
    with pytest.raises(NotPositiveDefinite):
        Cholesky().extended([], float("nan"), own=own)
