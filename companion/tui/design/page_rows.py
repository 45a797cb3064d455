"""The rows of the design page: each part of a draft in a line."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from companion.core.draft.draft import MOST_BEADS, MOST_STRANDS, Draft, strands_of
from companion.core.draft.file_text import Part
from companion.core.plan.plan import Plan
from companion.core.values.text import plain
from companion.core.variants.reach import Reach
from companion.core.words.drafting.draft_words import (
    bead_words,
    cord_words,
    ends_words,
    knot_number_words,
    pattern_words,
    reach_words,
    size_words,
)
from companion.tui.widgets.rows import Row

# A row's value: a part of the draft, and of beads and strands which one (from 0; the one after the last is a new one).
PartRow = tuple[str, int]
LABEL = 11  # columns


def rows_of(draft: Draft, wrong: Collection[Part], reach: Reach | None, plan: Plan | None = None) -> list[Row]:
    """All rows; those of the parts that are `wrong` have a mark. `plan`: the draft's; None where there is none yet."""
    return [
        Row(f"{label:<{LABEL}}{words}", value, _mark(value, wrong))
        for label, words, value in _lines(draft, reach, plan)
    ]


def is_new(draft: Draft, part: str, number: int) -> bool:
    """Whether a row stands for a bead or a strand that is not there yet."""
    return number == {"beads": len(draft.beads), "pattern": len(strands_of(draft))}.get(part)


def can_be_taken_out(draft: Draft, part: str, number: int) -> bool:
    """Whether a row stands for a bead, or for one of several strands."""
    return not is_new(draft, part, number) and (part == "beads" or (part == "pattern" and bool(draft.others)))


def _mark(value: PartRow, wrong: Collection[Part]) -> str:
    part, number = value
    return "△" if part in wrong and number == 0 else ""


def _lines(draft: Draft, reach: Reach | None, plan: Plan | None) -> Iterator[tuple[str, str, PartRow]]:
    yield "name", plain(draft.name, 60) or "not yet", ("what", 0)
    yield "length", size_words(draft, plan), ("size", 0)
    yield "cord", cord_words(draft), ("cord", 0)
    yield "its knots", knot_number_words(draft), ("knots", 0)
    for number, bead in enumerate(draft.beads):
        yield "" if number else "beads", bead_words(bead, draft.unit), ("beads", number)
    count = len(draft.beads)
    if count < MOST_BEADS:
        yield "" if count else "beads", f"+ {'one more kind' if count else 'the first kind'}", ("beads", count)
    strands = strands_of(draft)
    for number, strand in enumerate(strands):
        yield "" if number else "pattern", pattern_words(strand), ("pattern", number)
    yield "ends", ends_words(draft), ("ends", 0)
    if draft.pattern and len(strands) < MOST_STRANDS:
        yield "strands", "+ one more", ("pattern", len(strands))
    yield "a cord of", reach_words(draft, reach), ("reach", 0)
