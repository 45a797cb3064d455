"""Keys that were not meant: a key that is held or bounces counts once."""

from __future__ import annotations

import os
from collections.abc import Callable
from time import monotonic


def bounce_seconds(usual: float) -> float:
    """For how long after its last press a key does not count again: TALLYCORD_KEY_BOUNCE, in seconds, where it is set
    (a script that types wants 0), else `usual`."""
    try:
        return max(0.0, float(os.environ.get("TALLYCORD_KEY_BOUNCE", "")))
    except ValueError:
        return usual


class KeyBounce:
    """Says of each press of a key whether it counts. `clock`: in seconds."""

    def __init__(self, seconds: float, clock: Callable[[], float] = monotonic) -> None:
        self.seconds, self._clock = seconds, clock
        self._pressed: dict[str, float] = {}

    def counts(self, key: str) -> bool:
        """Whether this press counts: it comes long enough after the last press of that key, which this one is now."""
        now = self._clock()
        before, self._pressed[key] = self._pressed.get(key), now
        return before is None or now - before >= self.seconds
