"""Lengths typed on a screen: a bare number is in the maker's own unit there."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from msgspec import Struct

from companion.core.values.measures.lengths import LengthError, read_length_mm
from companion.core.values.measures.show_lengths import display_unit
from companion.core.values.text import plain
from companion.tui.dialogs.question import Judged, not_yet

T = TypeVar("T")

UNIT_WORDS = {"mm": "millimetres", "cm": "centimetres", "in": "inches"}


class TypedLength(Struct, frozen=True):
    """A length, and how the maker wrote it."""

    mm: float
    text: str


def length_judge(
    unit: str, mean: Callable[[TypedLength], Judged[T]], blank: Judged[T] | None = None
) -> Callable[[str], Judged[T]]:
    """Reads a length in a design's unit and says what it would mean; `blank`: what it means to type none."""

    def judge(text: str) -> Judged[T]:
        if not text.strip():
            return blank or not_yet()
        try:
            length = TypedLength(typed_mm(text, unit), plain(text, 40))
        except LengthError as error:
            return not_yet(str(error))
        return mean(length)

    return judge


def length_hint(unit: str, before: str = "") -> str:
    """What a line for a length says while it is empty."""
    return f"{before}a bare number is in {UNIT_WORDS[display_unit(unit)]}"


def typed_mm(text: str, unit: str, *, above_zero: bool = False) -> float:
    """A typed length, mm. Raises LengthError."""
    return float(read_length_mm(text.strip(), display_unit(unit), above_zero=above_zero))
