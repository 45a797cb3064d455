"""A stretch of a strand between two places where something was read or counted."""

from __future__ import annotations

from msgspec import Struct


class Segment(Struct, frozen=True):
    """Elements (first, last] of one entry of the plan."""

    entry: int
    first: int
    last: int

    @property
    def elements(self) -> int:
        """How many they are."""
        return self.last - self.first


class BeadCount(Struct, frozen=True):
    """The beads of a segment were counted: `beads` more than planned, 0: as many. A count that goes over several
    entries is one for each of them, all with the same number; `beads` is that of all of them."""

    segment: Segment
    beads: int = 0
    number: int = 0

    def covers(self, segment: Segment) -> bool:
        """Whether a segment lies inside."""
        own = self.segment
        return segment.entry == own.entry and own.first <= segment.first and segment.last <= own.last
