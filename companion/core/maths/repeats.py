"""What comes again and again in a row of things."""

from __future__ import annotations

from collections.abc import Hashable, Sequence


def longest_repeat(units: Sequence[Hashable], place: int, longest_pattern: int) -> tuple[int, int]:
    """How many units from there on repeat, and how often; of several ways the one that takes in most of the row, and of
    those the one with the shortest pattern. (1, 1) where nothing repeats."""
    best = (1, 1)
    for length in range(1, longest_pattern + 1):
        pattern, times = units[place : place + length], 1
        while len(pattern) == length and units[place + times * length : place + (times + 1) * length] == pattern:
            times += 1
        if times > 1 and length * times > best[0] * best[1]:
            best = length, times
    return best
