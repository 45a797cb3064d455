"""Which entries make the finished length: one strand, or the two sides of one worked from the middle."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.plan.fit import first_longest
from companion.core.plan.plan import PlannedStrand


def strand_groups(planned: Sequence[PlannedStrand]) -> list[tuple[int, ...]]:
    """The entries (from 0) of each strand, in order."""
    groups: list[tuple[int, ...]] = []
    for number, strand in enumerate(planned):
        if strand.side == "second":
            groups[-1] = (*groups[-1], number)
        else:
            groups.append((number,))
    return groups


def longest_entries(planned: Sequence[PlannedStrand]) -> tuple[int, ...]:
    """The entries of the longest strand; of strands equally long, of the first."""
    groups = strand_groups(planned)
    lengths = [sum(planned[number].strand_length_mm for number in group) for group in groups]
    return groups[first_longest(lengths)]
