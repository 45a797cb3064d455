"""The walk of tension against its sums written out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.plan.uncertainty.tension_walk import TensionWalk

KNOTS = st.lists(st.tuples(st.floats(0.5, 9), st.floats(2, 40)), min_size=1, max_size=9)
WEIGHTS = st.sampled_from([(1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])


@given(KNOTS, WEIGHTS, WEIGHTS, st.data())
def test_covariance_and_moment_are_their_sums_written_out(knots, early, late, data) -> None:
    b = data.draw(st.integers(0, len(knots)))
    a = data.draw(st.integers(0, b))
    walk = TensionWalk.over([length for length, _ in knots], [take_up for _, take_up in knots], 0.02)
    u = [early[0] * length + early[1] * take_up for length, take_up in knots]
    v = [late[0] * length + late[1] * take_up for length, take_up in knots]
    each = 0.02**2 / len(knots)
    written_out = sum(each * u[m - 1] * v[n - 1] * min(m, n) for m in range(1, a + 1) for n in range(1, b + 1))
    assert walk.covariance(a, b, early, late) == pytest.approx(written_out)
    assert walk.moment(b, late, 5) == pytest.approx(sum((5 + n) * v[n - 1] for n in range(1, b + 1)))


def test_without_knots_nothing_walks() -> None:
    assert TensionWalk.over([], [], 0.02).covariance(0, 0, (1.0, 0.0), (1.0, 1.0)) == 0
