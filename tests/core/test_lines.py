"""Fitted lines against certified values and against numpy."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.lines import LineFit, line_through_origin, straight_line

# Source: NIST Statistical Reference Datasets, linear regression, Norris: y x pairs.
NORRIS = """0.1 0.2 338.8 337.4 118.1 118.2 888.0 884.6 9.2 10.1 228.1 226.5 668.5 666.3 998.5 996.3 449.1 448.6
778.9 777.0 559.2 558.2 0.3 0.4 0.1 0.6 778.1 775.5 668.8 666.9 339.3 338.0 448.9 447.5 10.8 11.6 557.7 556.0
228.3 228.1 998.0 995.8 888.8 887.6 119.6 120.2 0.3 0.3 0.6 0.3 557.6 556.8 339.3 339.1 888.0 887.2 998.5 999.0
778.9 779.0 10.2 11.1 117.6 118.3 228.9 229.2 668.4 669.1 449.2 448.9 0.2 0.5"""

# Source: JCGM 100:2008 (GUM), H.3, table H.6: thermometer readings, degrees C, and their corrections.
READINGS = (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511)
CORRECTIONS = (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160)


def test_norris():
    numbers = [float(number) for number in NORRIS.split()]
    line = straight_line(numbers[1::2], numbers[::2])
    assert line.intercept == pytest.approx(-0.262323073774029, rel=1e-11, abs=0)
    assert line.slope == pytest.approx(1.00211681802045, rel=1e-13, abs=0)
    assert line.intercept_sd == pytest.approx(0.232818234301152, rel=1e-12, abs=0)
    assert line.slope_sd == pytest.approx(0.000429796848199937, rel=1e-12, abs=0)
    assert line.residual_sd == pytest.approx(0.884796396144373, rel=1e-12, abs=0)
    assert line.degrees == 34


# Source: NIST Statistical Reference Datasets, linear regression, NoInt1 and NoInt2 (the latter from memory).
@pytest.mark.parametrize(
    ("xs", "ys", "certified"),
    [
        (range(60, 71), range(130, 141), (2.07438016528926, 0.0165289256198347, 3.56753034006338, 10)),
        ((4, 5, 6), (3, 4, 4), (0.727272727272727, 0.0420827318078432, 0.369274472937998, 2)),
    ],
    ids=["NoInt1", "NoInt2"],
)
def test_no_intercept(xs, ys, certified):
    assert line_through_origin(xs, ys) == pytest.approx(certified, rel=1e-12, abs=0)


def test_thermometer_of_the_gum():
    line = straight_line([reading - 20 for reading in READINGS], CORRECTIONS)
    assert line.intercept == pytest.approx(-0.1712, abs=0.00005)
    assert line.intercept_sd == pytest.approx(0.0029, abs=0.00005)
    assert line.slope == pytest.approx(0.00218, abs=0.000005)
    assert line.slope_sd == pytest.approx(0.00067, abs=0.000005)
    assert line.covariance / (line.intercept_sd * line.slope_sd) == pytest.approx(-0.930, abs=0.0005)
    assert line.residual_sd == pytest.approx(0.0035, abs=0.00005)
    assert line.at(30 - 20) == pytest.approx((-0.1494, 0.0041), abs=0.00005)


POINTS = st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=4, max_size=12)


@given(POINTS, st.floats(-500, 500))
def test_lines_equal_numpy(points, moved):
    xs, ys = [x + moved for x, _ in points], [y for _, y in points]
    if np.std(xs) < 1:
        return
    line = straight_line(xs, ys)
    design = np.column_stack([np.ones(len(xs)), xs])
    estimates, _, _, _ = np.linalg.lstsq(design, ys, rcond=None)
    residuals = ys - design @ estimates
    covariance = residuals @ residuals / (len(xs) - 2) * np.linalg.inv(design.T @ design)
    assert (line.intercept, line.slope) == pytest.approx(estimates, rel=1e-7, abs=1e-7)
    assert (line.intercept_sd**2, line.covariance, line.slope_sd**2) == pytest.approx(
        (covariance[0, 0], covariance[0, 1], covariance[1, 1]), rel=1e-6, abs=1e-9
    )
    where = np.array([1, moved + 20])
    assert line.at(moved + 20)[0] == pytest.approx(where @ estimates, rel=1e-7, abs=1e-7)
    assert line.at(moved + 20)[1] == pytest.approx(sqrt(where @ covariance @ where), rel=1e-4, abs=1e-4)


@given(POINTS)
def test_lines_through_the_origin_equal_numpy(points):
    xs, ys = (np.array(column) for column in zip(*points, strict=True))
    if np.abs(xs).max() < 0.1:
        return
    slope = np.linalg.lstsq(xs[:, None], ys, rcond=None)[0][0]
    residual_sd = sqrt(np.sum((ys - slope * xs) ** 2) / (len(xs) - 1))
    found = line_through_origin(xs.tolist(), ys.tolist())
    assert found == pytest.approx((slope, residual_sd / np.linalg.norm(xs), residual_sd, len(xs) - 1), abs=1e-9)


def test_an_exact_line_far_from_the_origin_keeps_its_digits():
    """Sums of squares of raw values would leave nothing of a slope this far out."""
    line = straight_line([1e8, 1e8 + 1, 1e8 + 2, 1e8 + 3], [5, 7, 9, 11])
    assert line == LineFit(5 - 2e8, 2, 0, 0, 0, 0, 2)
    assert line.at(1e8 + 5) == (15, 0)


def test_a_line_far_from_the_origin_knows_how_well_it_is_known():
    near, far = (
        straight_line([0, 1, 2, 3], [5, 8, 8, 12]),
        straight_line([1e8, 1e8 + 1, 1e8 + 2, 1e8 + 3], [5, 8, 8, 12]),
    )
    for x in (-2, 1.5, 7):
        value, sd = near.at(x)
        assert far.at(1e8 + x) == (pytest.approx(value, abs=1e-6), pytest.approx(sd, rel=1e-6))


def test_what_is_no_line_is_refused():
    with pytest.raises(ValueError, match="at least 3 points, not 2"):
        straight_line([1, 2], [3, 4])
    with pytest.raises(ValueError, match="at least 2 points, not 1"):
        line_through_origin([1], [2])
    with pytest.raises(ValueError, match="not 2 for 3"):
        straight_line([1, 2, 3], [1, 2])
    with pytest.raises(ValueError, match="not 3 for 2"):
        line_through_origin([1, 2], [1, 2, 3])
    with pytest.raises(ValueError, match=r"differ, not 0\.1 alone"):
        straight_line([0.1, 0.1, 0.1], [1, 2, 3])
    with pytest.raises(ValueError, match="other than 0"):
        line_through_origin([0, 0], [1, 2])
