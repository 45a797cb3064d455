"""Lengths, cuts and shares that are typed on the command line. Faults are `Wrong`."""

from __future__ import annotations

from collections.abc import Callable

from companion.cli.arguments import Wrong
from companion.core.journal.events import CutEntered
from companion.core.plan.plan import Plan
from companion.core.values.measures.length_grammar import Unit
from companion.core.values.measures.lengths import LengthError, read_length_mm, unit_of
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit
from companion.core.values.measures.units import COARSEST_RULER_MM
from companion.core.values.setting_list import read_share
from companion.core.values.text import count_of, join_words, plain, uncapitalised

DISPLAY_UNITS: tuple[DisplayUnit, ...] = ("mm", "cm", "in")


def length_mm(text: str, unit: Unit | None = None, *, above_zero: bool = False) -> float:
    """A length, mm. `unit`: that of a bare number, which is refused where there is none."""
    try:
        return float(read_length_mm(text.strip(), unit, above_zero=above_zero))
    except LengthError as error:
        raise Wrong(str(error)) from error


def fitting_length_mm(text: str, plan: Plan, fits: Callable[[float], bool], *, above_zero: bool = False) -> float:
    """A length of a piece, mm; a bare number is in the piece's unit. One that can be right only in another unit is
    refused, with the question which is meant. `fits`: whether a length, mm, can be right."""
    unit = display_unit(plan.unit)
    mm = length_mm(text, unit, above_zero=above_zero)
    if unit_of(text.strip()) is None and not fits(mm):
        number = plain(text, 40)
        others = [other for other in DISPLAY_UNITS if other != unit and fits(length_mm(text, other))]
        if others:
            raise Wrong(
                f"{number} {unit} looks wrong, but {number} {others[0]} would fit. Which is it? "
                f'Write the unit: "{number} {others[0]}", or "{number} {unit}". Nothing was saved.'
            )
    return mm


def ruler_step_mm(text: str) -> float:
    """The least division of a ruler, mm."""
    step_mm = length_mm(text, above_zero=True)
    if step_mm > COARSEST_RULER_MM:
        raise Wrong(
            f"Found {plain(text, 40)}; expected the smallest mark on a ruler, an inch at most: 1 mm or 1/16 in."
        )
    return step_mm


def typed_share(text: str) -> float:
    """A share from 0.01 % to 50 %, written in per cent: "1%", "0,2 %"."""
    try:
        return read_share(text)
    except ValueError as error:
        raise Wrong(f"Found {plain(text, 40) or 'nothing'}; {uncapitalised(str(error))}") from error


def cuts_of(plan: Plan, typed: list[str]) -> tuple[CutEntered, ...]:
    """The cuts typed: LENGTH for the only cord; NAME=LENGTH, or one LENGTH a cord in order, for several. A cord that
    is given no length counts as cut by the plan; one given two is refused."""
    names = [cut.name for cut in plan.cuts]
    found: dict[int, CutEntered] = {}
    for place, text in enumerate(typed):
        name, equals, length = text.rpartition("=")
        if equals and name not in names:
            raise Wrong(f"There is no cord named {plain(name, 40)}; this design is cut from {join_words(names)}.")
        if not equals and len(typed) != len(names):
            cords = count_of(len(names), "cord", "one")
            raise Wrong(f"This design takes {cords} ({join_words(names)}): give a length for each, or NAME=LENGTH.")
        cord = names.index(name) if equals else place
        if cord in found:
            raise Wrong(f"Found two lengths for the cord {names[cord]}; expected one for each cord.")
        mm = length_mm(length, above_zero=True)
        found[cord] = CutEntered(cord, mm, plain(length, 40))
    return tuple(found[cord] for cord in sorted(found))
