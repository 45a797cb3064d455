"""A sheet as plain text, to be printed as it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import fill

from companion.core.sheet.sheet import EntrySheet, RulerRow, StepSheet
from companion.core.sheet.sheet_words import (
    BLANK_LINES,
    HOW_IT_IS_DONE,
    NOTES,
    STEPS,
    YOURS,
    YOURS_LEFT,
    boxes_words,
    row_words,
)
from companion.core.sheet.step_rows import StepRow
from companion.core.values.text import capitalised
from companion.core.words.trade.how_to import how_to_steps

COLUMNS = 78
BOX, TICKED = "[ ]", "[x]"
BETWEEN = "   "  # groups of boxes
_BLANK = "_" * 12


def sheet_lines(sheet: StepSheet) -> Iterator[str]:
    """The sheet, line by line, none wider than COLUMNS unless a word is."""
    yield from _wrapped(sheet.title)
    for line in sheet.about:
        yield from _wrapped(line)
    for part in sheet.parts:
        yield ""
        yield part.title
        for depth, text in part.lines:
            yield from _wrapped(text, "  " + "  " * depth)
    for entry in sheet.entries:
        yield ""
        yield f"{STEPS}, {entry.title}" if entry.title else STEPS
        yield from _wrapped(entry.where, "  ")
        yield from _entry_lines(entry)
    yield from _how_to_lines(sheet)
    yield ""
    yield NOTES
    yield from (f"  {note}" for note in sheet.notes)
    yield from ("  " + "_" * (COLUMNS - 2) for _ in range(BLANK_LINES))


def _entry_lines(entry: EntrySheet) -> Iterator[str]:
    width = max(len(boxes_words(row.first, row.last)) for row in entry.rows if isinstance(row, StepRow))
    for row in entry.rows:
        yield from _ruler_lines(row, width) if isinstance(row, RulerRow) else _step_lines(row, width)


def _step_lines(row: StepRow, width: int) -> Iterator[str]:
    numbers = f"{boxes_words(row.first, row.last):>{width}}"
    if row.boxes == 1:
        yield from _wrapped(row.texts[0], f"  {numbers}  {TICKED if row.done else BOX}  ")
        return
    often, lines = row_words(row.texts, row.times)
    said = (f"{often} {lines[0]}",) if often and len(lines) == 1 else (*([often] if often else []), *lines)
    for place, line in enumerate(said):
        yield from _wrapped(line, f"  {numbers if not place else ' ' * width}  ")
    groups, made = [], row.done
    for boxes in row.groups:
        ticked = min(boxes, made)
        groups.append(TICKED * ticked + BOX * (boxes - ticked))
        made -= ticked
    yield from _beside_each_other(groups, " " * (width + 4))


def _beside_each_other(groups: Sequence[str], before: str) -> Iterator[str]:
    """As many in a line as it has room for."""
    line = before + groups[0]
    for group in groups[1:]:
        if len(line) + len(BETWEEN) + len(group) > COLUMNS:
            yield line
            line = before + group
        else:
            line += BETWEEN + group
    yield line


def _ruler_lines(row: RulerRow, width: int) -> Iterator[str]:
    room = " " * (width + 4)
    yield from _wrapped(row.words, f"  {'=' * width}  ")
    yield f"{room}{YOURS}: {', '.join(row.read) if row.read else f'{_BLANK}   {YOURS_LEFT}: {_BLANK}'}"


def _how_to_lines(sheet: StepSheet) -> Iterator[str]:
    if sheet.how_tos:
        yield ""
        yield HOW_IT_IS_DONE
    for one in sheet.how_tos:
        yield ""
        yield f"  {capitalised(one.name)}"
        yield from (f"    {line}" for line in one.drawing)
        for line in how_to_steps(one):
            if line.text:
                yield fill(line.text, COLUMNS, initial_indent="    ", subsequent_indent=" " * (4 + line.hang))


def _wrapped(text: str, before: str = "") -> Iterator[str]:
    if text:
        set_in = before + " " * (len(text) - len(text.lstrip()))
        yield fill(text.strip(), COLUMNS, initial_indent=set_in, subsequent_indent=" " * len(set_in))
