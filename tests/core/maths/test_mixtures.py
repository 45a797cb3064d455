"""Mixtures of normals against published figures, scipy and simulation."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, stats

from companion.core.maths.mixtures import mixture_cdf, mixture_mean_sd, mixture_quantile


# Source: JCGM 100:2008 (GUM), F.2.2.1: a reading of resolution r has r / sqrt(12), the difference of two r / sqrt(6).
def test_resolution_as_a_mixture_of_many_places():
    places = [(place + 0.5) / 100 for place in range(100)]
    one = [(1 / 100, place, 0.0) for place in places]
    two = [(1 / 10_000, place - other, 0.0) for place in places for other in places]
    assert mixture_mean_sd(one) == pytest.approx((0.5, 0.2887), abs=1e-4)
    assert mixture_mean_sd(two) == pytest.approx((0, 0.4082), abs=1e-4)


# One reading 5 mm short (sd 3), a missed 6 mm bead at 3 % beforehand: 10.5 % afterwards, mean -0.630055 (our own).
def test_mean_of_two_hypotheses():
    missed = 0.105009
    mean, sd = mixture_mean_sd([(1 - missed, 0, 3), (missed, -6, 3)])
    assert mean == pytest.approx(-0.630055, abs=2e-6)
    assert sd == pytest.approx(sqrt(9 + 36 * missed * (1 - missed)))


@st.composite
def mixtures(draw):
    raw = draw(
        st.lists(st.tuples(st.floats(0.01, 1), st.floats(-300, 300), st.floats(0.05, 30)), min_size=1, max_size=6)
    )
    total = sum(weight for weight, _, _ in raw)
    return [(weight / total, mean, sd) for weight, mean, sd in raw]


@given(mixtures(), st.floats(0.001, 0.999))
def test_mixture_equals_scipy(parts, p):
    weights, means, sds = (np.array(column) for column in zip(*parts, strict=True))
    cdf = lambda x: float(weights @ stats.norm.cdf((x - means) / sds))  # noqa: E731
    reach = 12 * sds.max()
    wanted = optimize.brentq(lambda x: cdf(x) - p, means.min() - reach, means.max() + reach, xtol=1e-11, rtol=1e-14)
    x = mixture_quantile(p, parts)
    assert mixture_cdf(x, parts) == pytest.approx(cdf(x), abs=1e-13)
    # between far-off parts the distribution is level and any x there would do: its chance is what is asked for
    level = cdf(wanted + 1e-6) - cdf(wanted - 1e-6) < 1e-8
    assert cdf(x) == pytest.approx(p, abs=1e-12) if level else x == pytest.approx(wanted, abs=1e-6)
    mean = float(weights @ means)
    assert mixture_mean_sd(parts) == pytest.approx((mean, sqrt(weights @ (sds**2 + (means - mean) ** 2))))


def test_mixture_against_simulation():
    parts = [(0.55, 190.0, 3.0), (0.3, 183.0, 4.0), (0.15, 205.0, 0.0)]
    draw = np.random.default_rng(5)
    which = draw.choice(3, size=400_000, p=[weight for weight, _, _ in parts])
    values = draw.normal(np.array([190.0, 183.0, 205.0])[which], np.array([3.0, 4.0, 0.0])[which])
    for p in (0.025, 0.1, 0.5, 0.8, 0.9, 0.975):
        assert mixture_quantile(p, parts) == pytest.approx(np.quantile(values, p), abs=0.06)
    assert mixture_mean_sd(parts) == pytest.approx((values.mean(), values.std()), abs=0.05)
    assert mixture_cdf(188, parts) == pytest.approx(np.mean(values <= 188), abs=0.004)


def test_mixture_of_certainties_is_a_staircase():
    parts = [(0.25, 1.0, 0.0), (0.5, 2.0, 0.0), (0.25, 7.0, 0.0)]
    assert [mixture_cdf(x, parts) for x in (0.9, 1, 1.9, 2, 7)] == [0, 0.25, 0.25, 0.75, 1]
    assert [mixture_quantile(p, parts) for p in (0.1, 0.25, 0.26, 0.75, 0.76)] == [1, 1, 2, 2, 7]
    assert mixture_quantile(0.3, [(1.0, 4.0, 0.0)]) == 4
    assert mixture_quantile(0.5, [(0.5, -3.0, 1.0), (0.5, 3.0, 1.0)]) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("p", [0, 1, -0.1, 1.1, float("nan")])
def test_a_chance_lies_between_nought_and_one(p):
    with pytest.raises(ValueError, match="between 0 and 1"):
        mixture_quantile(p, [(1, 0, 1)])
