"""Keys that were not meant: a key that is held or bounces counts once."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic


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
