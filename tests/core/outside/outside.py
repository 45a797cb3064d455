"""A set of values from outside the program, with where they were read and which test checks the program by them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

Row = tuple[Any, ...]  # as the test takes it


@dataclass(frozen=True)
class Outside:
    """Values that others measured, proved or tabulated.

    `checks`: the function of the program; `source`: the document, and the table, section or page, as it was seen;
    `otherwise`: how the program comes to its number without that source; `used_by`: the test, as pytest names it.
    `weak`: what speaks against leaning on it, "" for nothing; such values are checked, and not counted.
    """

    checks: str
    source: str
    otherwise: str
    used_by: str
    values: tuple[Row, ...]
    weak: str = ""


def rows(*sets: Outside) -> list[Row]:
    """The values of several sets, for one test that is parametrised with all of them."""
    return [row for one in sets for row in one.values]
