"""The growing factor against numpy, and the conditioning against a certified series."""

from __future__ import annotations

from math import log, pi

import numpy as np
import pytest

from companion.core.gaussian import Cholesky, NotPositiveDefinite, log_density, posterior

# Annual flow of the Nile at Aswan, 1871-1970, 10^8 m³: Durbin & Koopman, "Time Series Analysis by State Space
# Methods", ch. 2 (data from memory; they reproduce the published likelihood below).
NILE = """
1120 1160 963 1210 1160 1160 813 1230 1370 1140 995 935 1110 994 1020 960 1180 799 958 1140 1100 1210 1150
1250 1260 1220 1030 1100 774 840 874 694 940 833 701 916 692 1020 1050 969 831 726 456 824 702 1120 1100 832
764 821 768 845 864 862 698 845 744 796 1040 759 781 865 845 944 984 897 822 1010 771 676 649 846 812 742 801
1040 860 874 848 890 744 749 838 1050 918 986 797 923 975 815 1020 906 901 1170 912 746 919 718 714 740
"""


def grown(matrix: np.ndarray) -> Cholesky:
    factor = Cholesky()
    for n in range(len(matrix)):
        factor = factor.extended(list(matrix[n, :n]), float(matrix[n, n]))
    return factor


def test_against_numpy() -> None:
    draw = np.random.default_rng(5)
    for size in (1, 2, 7, 30):
        root = draw.normal(size=(size, size))
        matrix = root @ root.T + 0.5 * np.eye(size)
        factor = grown(matrix)
        lower = np.linalg.cholesky(matrix)
        padded = np.array([list(row) + [0.0] * (size - len(row)) for row in factor.rows])
        assert padded == pytest.approx(lower, abs=1e-9)
        vector = draw.normal(size=size)
        assert factor.solve_lower(list(vector)) == pytest.approx(np.linalg.solve(lower, vector), abs=1e-8)
        assert factor.log_determinant() == pytest.approx(np.linalg.slogdet(matrix)[1])


def test_what_is_no_covariance_is_refused() -> None:
    with pytest.raises(NotPositiveDefinite):
        Cholesky().extended([], 4.0).extended([4.0], 4.0)


def test_the_nile_by_conditioning() -> None:
    """Local level, variances 15099 and 1469.1: log-likelihood -632.54, steady filtered variance 4032.16 (Durbin &
    Koopman, ch. 2). Diffuse start: the first year gives the level, its likelihood is left out."""
    flow = [float(value) for value in NILE.split()]
    assert len(flow) == 100
    noise, walk = 15099.0, 1469.1
    # Given the first year, the level in year n is N(y1, noise + n walk), jointly Gaussian over the years.
    factor, white = Cholesky(), []
    for n in range(1, 100):
        column = [noise + walk * min(n, other) for other in range(1, n)]
        factor = factor.extended(column, noise + walk * n + noise)
        white.append(Cholesky.solve_next(white, factor.rows[-1], flow[n] - flow[0]))
    assert log_density(factor, white) == pytest.approx(-632.54, abs=0.02)
    covariances = factor.solve_lower([noise + walk * n for n in range(1, 100)])
    mean, variance = posterior(white, flow[0], noise + walk * 99, covariances)
    assert variance == pytest.approx(4032.16, abs=0.02)
    assert mean == pytest.approx(kalman(flow, noise, walk), abs=1e-6)


def kalman(flow: list[float], noise: float, walk: float) -> float:
    """The filtered level a second way: the scalar recursion."""
    level, variance, total = flow[0], noise + walk, 0.0
    for value in flow[1:]:
        spread = variance + noise
        total -= 0.5 * (log(2 * pi * spread) + (value - level) ** 2 / spread)
        level += variance / spread * (value - level)
        variance = variance * noise / spread + walk
    assert total == pytest.approx(-632.54, abs=0.02)
    return level
