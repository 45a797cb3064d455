""" "Every fifth bead": what it may mean."""

from __future__ import annotations

from msgspec import Struct

MOST_EVERY = 99


class EveryReading(Struct, frozen=True):
    """One way to read it: so many of the one bead, then one of the other, over and over."""

    most: int
    pattern: str


def read_every(text: str) -> int:
    """The number that is typed. Raises ValueError for one that is none."""
    text = text.strip()
    if not (text.isascii() and text.isdecimal() and len(text) <= len(str(MOST_EVERY))):
        raise ValueError("no such number")
    return int(text)


def every_readings(every: int, most: str, other: str) -> tuple[EveryReading, EveryReading]:
    """Both readings of "every `every`-th bead is `other`", `most` and `other` being letters: of five beads the fifth
    (4 + 1), and one after every five (5 + 1). Raises ValueError where there is nothing between."""
    if not 2 <= every <= MOST_EVERY:
        raise ValueError(f"every second to every {MOST_EVERY}th")
    return (EveryReading(every - 1, most * (every - 1) + other), EveryReading(every, most * every + other))
