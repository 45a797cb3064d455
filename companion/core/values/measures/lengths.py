"""Lengths and counts as makers write them, read exactly. `show_lengths` is the way back to the screen."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from companion.core.values.measures.length_grammar import (
    MM_PER_UNIT,
    MOST_CHARACTERS,
    PART,
    PARTS,
    SPELLINGS,
    Unit,
    read_number,
    tidied,
)
from companion.core.values.measures.length_refusals import EXAMPLE, EXPECTED, quoted, what_is_wrong
from companion.core.values.measures.units import MOST_MM

MOST_COUNT = 100_000

_EXPECTED_COUNT = "a whole number from 1 to 100,000"


class LengthError(ValueError):
    """A length or a count that can't be taken as written: what was found, what is expected, what to write instead.

    The three are fit for a screen whatever the text held; str() makes one sentence of them.
    """

    def __init__(self, found: str, expected: str, hint: str) -> None:
        super().__init__(found, expected, hint)
        self.found = found
        self.expected = expected
        self.hint = hint

    def __str__(self) -> str:
        return f"Found {self.found}; expected {self.expected}: {self.hint}."


@lru_cache(maxsize=4096)
def read_length_mm(text: str, default_unit: Unit | None = None, *, above_zero: bool = False) -> Fraction:
    """The length in mm, exactly as written; a bare number is of the default unit, where there is one.

    Raises LengthError for anything else than a length from 0 (or just above it, with `above_zero`) to 1 km.
    """
    (number, written), *inches = _parts(text)
    unit = written or default_unit
    if unit is None:
        bare = tidied(text)
        raise LengthError(f"{quoted(text)}, without a unit", EXPECTED, f"write {bare} mm or {bare} in")
    length_mm = number * MM_PER_UNIT[unit]
    for more, _ in inches:
        length_mm += more * MM_PER_UNIT["in"]
    if length_mm > MOST_MM:
        raise LengthError(quoted(text), "at most 1 km", "look at the unit and the decimal point")
    if above_zero and not length_mm:
        raise LengthError(quoted(text), "a length above 0", "write what the ruler says")
    return length_mm


def unit_of(text: str) -> Unit | None:
    """The unit that a length is written in; of feet and inches, the inch; None for a bare number.

    Raises LengthError.
    """
    return _parts(text)[-1][1]


def whole_number(text: str) -> int:
    """A count written in the digits 0 to 9, from 1 to 100,000. Raises LengthError."""
    digits = tidied(text)
    if not re.fullmatch(f"[0-9]{{1,{MOST_CHARACTERS}}}", digits):
        found = quoted(text) if digits else "nothing"
        raise LengthError(found, _EXPECTED_COUNT, "write it in digits alone, like 12")
    if not 1 <= int(digits) <= MOST_COUNT:
        raise LengthError(quoted(text), _EXPECTED_COUNT, "write a number in that range")
    return int(digits)


def _parts(text: str) -> list[tuple[Fraction, Unit | None]]:
    """The numbers of a length with their units: one pair, or feet and inches. Raises LengthError."""
    if len(text) > MOST_CHARACTERS:
        raise LengthError(f"a length of {len(text)} characters", f"at most {MOST_CHARACTERS}", EXAMPLE)
    tidy = tidied(text)
    if not tidy[-1:].isalpha():
        bare = read_number(tidy)
        if bare is not None:
            return [(bare, None)]
    written = re.findall(PART, tidy) if re.fullmatch(PARTS, tidy) else []
    units = [SPELLINGS[unit] for _, unit in written]
    feet_and_inches = units == ["ft", "in"] and written[0][0].isdigit()
    if len(units) != 1 and not feet_and_inches:
        raise LengthError(*what_is_wrong(tidy))
    parts: list[tuple[Fraction, Unit | None]] = []
    for (digits, _), unit in zip(written, units, strict=True):
        number = read_number(digits.strip())
        if number is None:
            raise LengthError(*what_is_wrong(tidy))
        parts.append((number, unit))
    return parts
