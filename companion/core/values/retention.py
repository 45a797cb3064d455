"""Which of the dated copies of the file of pieces are kept: a few, by age. A clock that is wrong costs none of them."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from msgspec import Struct

DAYS, WEEKS, MONTHS = 7, 4, 12  # of so many days, weeks and months that have copies, the newest one each
DAY_SECONDS = 24 * 60 * 60


class Copy(Struct, frozen=True):
    """A copy by its name. `at`: seconds since any fixed moment; day, week and month count on from any fixed one."""

    name: str
    at: float
    day: int
    week: int
    month: int


def kept(copies: Collection[Copy], now: float) -> frozenset[str]:
    """The names of those to keep. What is dated after `now` is always kept and takes no other's place: the clock was
    wrong then, or is wrong now, and neither says that a copy is worth less."""
    ahead = {copy.name for copy in copies if copy.at > now}
    rest = sorted((copy for copy in copies if copy.at <= now), key=lambda copy: (copy.at, copy.name), reverse=True)
    return frozenset(
        ahead
        | _newest_of_each(rest, [copy.day for copy in rest], DAYS)
        | _newest_of_each(rest, [copy.week for copy in rest], WEEKS)
        | _newest_of_each(rest, [copy.month for copy in rest], MONTHS)
    )


def _newest_of_each(newest_first: Sequence[Copy], periods: Sequence[int], most: int) -> set[str]:
    first: dict[int, str] = {}
    for copy, period in zip(newest_first, periods, strict=True):
        if period not in first and len(first) < most:
            first[period] = copy.name
    return set(first.values())


def is_due(copies: Collection[Copy], now: float) -> bool | None:
    """Whether the newest copy is a day old. None if the clock can't tell, because a copy is dated after `now`."""
    if any(copy.at > now for copy in copies):
        return None
    return all(now - copy.at >= DAY_SECONDS for copy in copies)
