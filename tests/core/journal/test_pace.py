"""The pace: the middle interval of the latest confirms, pauses left out, silence before there is enough to go by."""

from __future__ import annotations

from itertools import accumulate, pairwise
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.journal.pace import LATEST, LEAST_INTERVALS, PAUSE_SECONDS, Pace, pace


def times(*gaps: float) -> list[float]:
    return list(accumulate(gaps, initial=1000.0))


def test_nothing_is_said_before_three_intervals() -> None:
    assert pace([], 9) == pace([5.0], 9) == pace(times(20, 20), 9) == Pace(None, None)
    assert pace(times(20, 20, 20), 9) == Pace(20.0, 180.0)


def test_one_slow_knot_and_a_dinner_change_nothing() -> None:
    assert pace(times(20, 22, 21, 400, 20, 5000, 22), 10).seconds_per_step == pytest.approx(21.5)


def test_a_pause_is_more_than_ten_minutes() -> None:
    assert pace(times(600, 600, 600), 1) == Pace(600.0, 600.0)
    assert pace(times(601, 601, 601), 1) == Pace(None, None)


def test_only_the_latest_thirty_intervals_count() -> None:
    assert pace(times(*[90] * 40, *[30] * 30), 2) == Pace(30.0, 60.0)
    assert pace(times(10, *[20] * 15, *[40] * 15), 2) == Pace(30.0, 60.0)  # one more gives 20, one fewer 40


def test_a_clock_set_back_leaves_no_negative_pace() -> None:
    assert pace(times(20, 20, -7200, 20, 20), 3) == Pace(20.0, 60.0)


def test_no_steps_left_takes_no_time() -> None:
    assert pace(times(20, 20, 20), 0).seconds_left == 0


@given(st.lists(st.integers(-50, 900), max_size=70), st.integers(0, 500))
def test_a_second_way(gaps: list[int], left: int) -> None:
    """Against the standard library's median; whole seconds, so that sums of them are exact."""
    stamps = times(*gaps)
    kept = [b - a for a, b in list(pairwise(stamps))[-LATEST:] if 0 < b - a <= PAUSE_SECONDS]
    expected = None if len(kept) < LEAST_INTERVALS else median(kept)
    assert pace(stamps, left) == Pace(expected, None if expected is None else expected * left)
