"""Lengths after options, as makers type them: "--free 23 3/4" is one length, and needs no quotes."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

FEET = frozenset({"ft", "foot", "feet", "'"})
UNITS = FEET | {"mm", "cm", "m", "in", "inch", "inches", '"', "yd"}
_FRACTION = re.compile(r"[0-9]+[/⁄][0-9]+[a-z\"']*|[¼-¾⅐-⅞]")
_INCHES = re.compile(r"[0-9]+(?:in|\")?")


def whole_lengths(words: Sequence[str], options: Collection[str]) -> list[str]:
    """The words of a command line; what follows the value of one of these options and can only belong to that length (a
    fraction, a unit, the inches after the feet) is put to it."""
    whole: list[str] = []
    reading = False  # whether the last word is such a value
    for place, word in enumerate(words):
        before = words[place - 1] if place else ""
        belongs = _FRACTION.fullmatch(word) or word.lower() in UNITS or (before.lower() in FEET and _INCHES.match(word))
        if reading and belongs:
            whole[-1] = f"{whole[-1]} {word}"
            continue
        whole.append(word)
        reading = before in options or (word.partition("=")[0] in options and "=" in word)
    return whole
