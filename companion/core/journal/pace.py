"""How fast the maker goes: from the times of the latest confirms, pauses left out."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

PAUSE_SECONDS = 600.0
LATEST = 30
LEAST_INTERVALS = 3


class Pace(Struct, frozen=True):
    """Seconds for each step, and seconds until every step is done; None until there is enough to go by."""

    seconds_per_step: float | None
    seconds_left: float | None


def pace(confirm_seconds: Sequence[float], steps_left: int) -> Pace:
    """The pace from the times at which steps were marked, in seconds, oldest first: the median of the latest
    intervals."""
    latest = confirm_seconds[-LATEST - 1 :]
    gaps = [after - before for before, after in pairwise(latest)]
    gaps = [gap for gap in gaps if 0 < gap <= PAUSE_SECONDS]
    if len(gaps) < LEAST_INTERVALS:
        return Pace(None, None)
    gaps.sort()
    each = (gaps[(len(gaps) - 1) // 2] + gaps[len(gaps) // 2]) / 2  # the middle one
    return Pace(each, each * steps_left)


class Worked(Struct, frozen=True):
    """How long the work on a piece took, pauses left out, and on how many days."""

    seconds: float
    days: int


def seconds_worked(times: Sequence[float]) -> float:
    """How long the work took, from the times of everything that was done, in seconds and in order. Pauses are left out,
    and so is the gap that a clock leaves when it is set back."""
    return sum(gap for gap in (after - before for before, after in pairwise(times)) if 0 < gap <= PAUSE_SECONDS)
