"""The sentences of a sheet that are on no screen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from companion.core.journal.events import Measured
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import plain
from companion.core.words.plan_words import length_line, opened_line
from companion.core.words.step_words import step_name

YOURS, YOURS_LEFT = "yours", "left over"
BLANK_LINES = 4  # to write notes on
TOO_LONG = "This piece is too long to be drawn on paper."
STEPS, NOTES, HOW_IT_IS_DONE, PICTURE = "Steps", "Notes", "How it is done", "The piece, as long as it will be"


def about_lines(plan: Plan, named: bool) -> Iterator[str]:
    """What it is: the design of a piece that has a name of its own, its note, its length and its target. `named`: the
    title is the piece's name."""
    if named:
        yield f"A piece of {plain(plan.design)}."
    if plan.note:
        yield plan.note
    yield length_line(plan)
    if opened := opened_line(plan):
        yield opened


def ruler_words(plan: Plan, step: int, strand_mm: float, left_mm: float) -> str:
    """What the ruler should say after a step: of the strand, and of each leftover cord, mm."""
    unit = display_unit(plan.unit)
    left = "each leftover cord" if plan.cord.layers > 1 else "the leftover cord"
    return f"After step {step_name(plan, step)} the strand is {show(strand_mm, unit)}, {left} {show(left_mm, unit)}."


def read_words(reading: Measured) -> str:
    """A reading as the maker typed it."""
    return f"{reading.typed} left over" if reading.kind == "free" else reading.typed


def boxes_words(first: int, last: int) -> str:
    """Which steps a row of boxes is for: "14" or "14–20"."""
    return str(first) if first == last else f"{first}–{last}"


def row_words(texts: Sequence[str], times: int) -> tuple[str, tuple[str, ...]]:
    """How often all of a row is done, "" for once, and its lines: equal steps that follow each other are one."""
    runs = [(text, len(list(equal))) for text, equal in groupby(texts)]
    lines = tuple(text if count == 1 else f"{_often(count)}: {text}" for text, count in runs)
    if times == 1:
        return "", lines
    return f"{_often(times)}{' in turn' if len(lines) > 1 else ''}:", lines


def _often(times: int) -> str:
    return "Twice" if times == 2 else f"{times} times"


def check_words(shown: str) -> str:
    """Above the line that shows whether the print is to scale."""
    return f"Lay a ruler on this line first. Is it not {shown} long? Then print again at 100 %, for a picture to scale."
