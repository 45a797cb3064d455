"""Garbage collected while nobody types: to look through all that is kept takes longer than a key may wait."""

from __future__ import annotations

import gc
from collections.abc import Callable
from time import monotonic

LOOK_SECONDS, QUIET_SECONDS = 1.0, 2.0  # how often it is looked whether keys have rested, and for how long they have to
RARELY = 1_000  # rounds through what is newer, 10 before, until all is looked through unasked


class Tidying:
    """Looks through everything once after keys were typed, when they have rested for a while."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock, self._due_at = clock, float("inf")

    @staticmethod
    def begin() -> None:
        """From now on keys wait only for what is new; what is there already stays, and is never looked through."""
        gc.freeze()
        first, second, _ = gc.get_threshold()
        gc.set_threshold(first, second, RARELY)

    def typed(self) -> None:
        """A key was typed."""
        self._due_at = self._clock() + QUIET_SECONDS

    def look(self) -> bool:
        """Collect where it is due; whether it was."""
        if self._clock() < self._due_at:
            return False
        self._due_at = float("inf")
        gc.collect()
        return True
