"""Quantiles, tails, effective degrees and conformity against published tables, and against scipy."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize, stats

from companion.core import distributions as d


@given(st.floats(1e-9, 1 - 1e-9), st.one_of(st.floats(0.6, 50), st.floats(50, 1e5)))
@settings(max_examples=200, deadline=None)
def test_student_against_scipy(p: float, degrees: float) -> None:
    expected = stats.t.ppf(p, degrees)
    if abs(expected) > 1e-6:
        assert d.student_quantile(p, degrees) == pytest.approx(expected, rel=1e-7)
    assert d.student_cdf(expected, degrees) == pytest.approx(p, rel=1e-7, abs=1e-12)


def test_student_table() -> None:
    """JCGM 100:2008, table G.2 (97.5 %); NIST/SEMATECH e-Handbook 1.3.6.7.2 (95 and 99 % at 4)."""
    table = {1: 12.71, 2: 4.30, 3: 3.18, 4: 2.78, 9: 2.26, 16: 2.12}
    for degrees, value in table.items():
        assert d.student_quantile(0.975, degrees) == pytest.approx(value, abs=0.0051)
    assert d.student_quantile(0.95, 4) == pytest.approx(2.131847, abs=1e-6)
    assert d.student_quantile(0.99, 4) == pytest.approx(3.746947, abs=1e-6)


def test_normal_table() -> None:
    """NIST/SEMATECH e-Handbook 1.3.6.7.1."""
    table = {0.95: 1.644854, 0.975: 1.959964, 0.99: 2.326348, 0.995: 2.575829}
    for p, z in table.items():
        assert d.normal_quantile(p) == pytest.approx(z, abs=1e-6)
        assert d.student_quantile(p, 1e9) == pytest.approx(z, abs=1e-6)
    for z in (-38.0, -8.0, -1.0, 0.0, 2.5, 12.0):
        assert d.normal_cdf(z) == pytest.approx(stats.norm.cdf(z), rel=1e-12)


def test_effective_degrees_of_the_end_gauge() -> None:
    """JCGM 100:2008 (GUM), H.1: 25, 9.7, 2.9, 16.6 nm with 18, 25.6, 50, 2 degrees: 16, t99 2.92, U99 93 nm."""
    degrees = d.effective_degrees([(25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)])
    assert int(degrees) == 16
    assert d.student_quantile(0.995, 16) == pytest.approx(2.92, abs=0.005)
    assert d.effective_degrees([(3, float("inf")), (0, 2)]) == float("inf")
    assert d.effective_degrees([(3, 7)]) == pytest.approx(7)


def test_conformity_probability() -> None:
    """JCGM 106:2012, clause 7 examples: one limit 0.92, two limits 0.66 (numbers from memory)."""
    assert d.within(-5.47 - 100, -5.40, -5.47, 0.05) == pytest.approx(0.92, abs=0.005)
    assert d.within(12.5, 16.3, 13.6, 1.8) == pytest.approx(0.66, abs=0.005)
    assert d.within(1, 2, 1.5, 0) == 1
    assert d.within(1, 2, 2.5, 0) == 0


@given(st.floats(-5, 5), st.floats(0.01, 3), st.floats(-4, 4), st.floats(0.01, 4))
@settings(max_examples=100, deadline=None)
def test_within_against_scipy(low: float, width: float, mean: float, sd: float) -> None:
    expected = stats.norm.cdf(low + width, mean, sd) - stats.norm.cdf(low, mean, sd)
    assert d.within(low, low + width, mean, sd) == pytest.approx(expected, abs=1e-9)


PARTS = [(0.7, 10.0, 1.0), (0.2, 16.0, 2.0), (0.1, 4.0, 0.5)]


@pytest.mark.parametrize("p", [0.001, 0.025, 0.3, 0.5, 0.9, 0.975])
def test_mixture_quantiles(p: float) -> None:
    def gap(x: float) -> float:
        return sum(w * stats.norm.cdf(x, m, s) for w, m, s in PARTS) - p

    assert d.mixture_quantile(p, PARTS) == pytest.approx(optimize.brentq(gap, -20, 40), abs=1e-9)
    draw = np.random.default_rng(3)
    which = draw.choice(3, 200_000, p=[0.7, 0.2, 0.1])
    values = draw.normal(np.array([10.0, 16, 4])[which], np.array([1, 2, 0.5])[which])
    assert d.mixture_cdf(np.quantile(values, p), PARTS) == pytest.approx(p, abs=0.005)
    mean, sd = d.mixture_mean_sd(PARTS)
    assert mean == pytest.approx(values.mean(), abs=0.03)
    assert sd == pytest.approx(values.std(), abs=0.03)


@pytest.mark.parametrize("p", [0, 1, -0.1, 2])
def test_no_quantile_outside(p: float) -> None:
    for quantile in (d.normal_quantile, lambda p: d.student_quantile(p, 3)):
        with pytest.raises(ValueError, match="between 0 and 1"):
            quantile(p)
