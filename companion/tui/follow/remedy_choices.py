"""What would bring the piece back, as a list to choose from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from companion.core.forecast.outlook import Outlook
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_words import best_is_poor, outcome_words
from companion.core.words.measured.ways_words import ways_lines
from companion.tui.commands import CLOSE, MOST_CHOICES, choosing
from companion.tui.dialogs.choose import Choices
from companion.tui.follow.sentences import ANSWERS
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import hanging
from companion.workshop import OpenPiece

HANG = 3
EDGES = 4  # a space on the left, the scroll bar, and one on each side of it


def remedy_choices(opened: OpenPiece, outlook: Outlook, remedies: Sequence[Remedy]) -> Choices[Remedy]:
    """What there is to put right, and the ways to do it, each with what it would mean."""
    offered = remedies[:MOST_CHOICES]
    keys = (*(choosing(number) for number in range(1, len(offered) + 1)), CLOSE)

    def rows(columns: int) -> Iterator[Row]:
        room = columns - EDGES
        for text in introduction(opened, outlook, remedies):
            yield from _text_rows(text, room)
        for number, remedy in enumerate(offered, start=1):
            first, *more = hanging(f"{number}  {remedy.what}.", room, HANG)
            yield Row(first, remedy)
            yield from (Row(line, detail=True) for line in more)
            meant = hanging(" " * HANG + outcome_words(opened.plan, remedy), room, HANG)
            yield from (Row(line, detail=True, muted=True) for line in meant)
            yield Row("")
        if best_is_poor(offered):
            yield from _text_rows(best_is_poor(offered), room)
            yield Row("")
        if offered:
            yield from _text_rows(how_to_choose(len(offered)), room)

    return Choices("What to do", lambda columns: tuple(rows(columns)), keys, numbered=True)


def _text_rows(text: str, columns: int) -> Iterator[Row]:
    """Text that belongs to no row."""
    return (Row(line, detail=True) for line in hanging(text, columns, 0))


def introduction(opened: OpenPiece, outlook: Outlook, remedies: Sequence[Remedy]) -> list[str]:
    """What there is to put right: the cord, then the length; an empty line after each."""
    told = ways_lines(opened.plan, opened.piece, outlook, bool(remedies), ANSWERS)
    return [line for text in told for line in (text, "")]


def how_to_choose(count: int) -> str:
    """How one of so many is chosen."""
    keys = "1" if count == 1 else f"1 to {count}"
    return f"Choose {keys}. The remaining steps change to suit; u undoes it."
