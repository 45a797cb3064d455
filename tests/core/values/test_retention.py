"""Which copies are kept: simulated years, and clocks that go wrong."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from companion.core.values.retention import DAY_SECONDS, DAYS, MONTHS, WEEKS, Copy, is_due, kept

FIRST = date(2024, 1, 1)  # a Monday


def copy(number: int, at: float) -> Copy:
    day = FIRST + timedelta(days=int(at // DAY_SECONDS))
    return Copy(f"{number}", at, day.toordinal(), (day.toordinal() - 1) // 7, day.year * 12 + day.month)


DATES = st.lists(st.floats(0, 1000 * DAY_SECONDS), max_size=60).map(
    lambda times: [copy(number, at) for number, at in enumerate(times)]
)
NOW = st.floats(0, 1000 * DAY_SECONDS)


@given(DATES, NOW)
def test_few_are_kept_and_always_the_newest(copies: list[Copy], now: float) -> None:
    names = kept(copies, now)
    past = [one for one in copies if one.at <= now]
    assert len([one for one in past if one.name in names]) <= DAYS + WEEKS + MONTHS
    if past:
        newest = max(one.at for one in past)
        assert any(one.name in names for one in past if one.at == newest)


@given(DATES, NOW)
def test_what_is_dated_ahead_is_kept_and_takes_no_place(copies: list[Copy], now: float) -> None:
    ahead = [one for one in copies if one.at > now]
    assert kept(copies, now) == kept([one for one in copies if one.at <= now], now) | {one.name for one in ahead}


@given(DATES, NOW)
def test_asking_again_changes_nothing(copies: list[Copy], now: float) -> None:
    names = kept(copies, now)
    assert kept([one for one in copies if one.name in names], now) == names


def test_three_years_of_days() -> None:
    """A copy a day: afterwards one of each of the last days, and of enough weeks and months before."""
    there: list[Copy] = []
    for day in range(3 * 365):
        there.append(copy(day, day * DAY_SECONDS + 3600))
        names = kept(there, day * DAY_SECONDS + 7200)
        there = [one for one in there if one.name in names]
        assert len(there) <= DAYS + WEEKS + MONTHS
    days = [one.day for one in there]
    last = max(days)
    assert set(range(last - DAYS + 1, last + 1)) <= set(days)
    assert (
        len({one.week for one in there} & {last_week - n for n in range(WEEKS) for last_week in [(last - 1) // 7]}) == 4
    )
    newest_month = max(one.month for one in there)
    assert {one.month for one in there} == set(range(newest_month - MONTHS + 1, newest_month + 1))


def test_a_clock_that_was_ahead_for_a_month_costs_nothing() -> None:
    good = [copy(day, day * DAY_SECONDS) for day in range(5)]
    ahead = [copy(100 + day, (500 + day) * DAY_SECONDS) for day in range(30)]
    new = copy(999, 6 * DAY_SECONDS)
    assert kept([*good, *ahead, new], 6 * DAY_SECONDS + 1) == {one.name for one in [*good, *ahead, new]}


@given(DATES, NOW)
def test_due_once_a_day_and_never_by_a_clock_that_went_back(copies: list[Copy], now: float) -> None:
    due = is_due(copies, now)
    if any(one.at > now for one in copies):
        assert due is None
    else:
        assert due == (not any(now - DAY_SECONDS < one.at for one in copies))
