"""What would bring the piece back, as a list to choose from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from companion.core.drawing.pixels import Palette, Pixels
from companion.core.drawing.rests import rest_pictures
from companion.core.forecast.outlook import Outlook
from companion.core.picture.marks import letters_of
from companion.core.picture.rest_strip import rest_letters, rest_strip
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_columns import Columns, columns_of, headings, rest_after, rest_now
from companion.core.remedies.remedy_words import best_is_poor, joins_alone
from companion.core.words.measured.ways_words import ways_lines
from companion.tui.commands import CLOSE, MOST_CHOICES, choosing
from companion.tui.dialogs.choose import Choices
from companion.tui.follow.sentences import ANSWERS
from companion.tui.widgets.rows import DrawnLine, Row
from companion.tui.widgets.wrapping import hanging, padded
from companion.workshop import OpenPiece

HANG = 3
EDGES = 4  # a space on the left, the scroll bar, and one on each side of it
BESIDE_FROM = 96  # columns: the figures stand beside the words, else below them
AS_PLANNED = 13  # columns for the word behind the first strip
FINISHES, CHANCE, CORD = 18, 14, 17  # columns of the figures
FIGURES = FINISHES + CHANCE + CORD


def remedy_choices(
    opened: OpenPiece, outlook: Outlook, remedies: Sequence[Remedy], palette: Palette | None = None
) -> Choices[Remedy]:
    """What there is to put right, and the ways to do it, in columns, each with how the rest would look: in letters, and
    drawn where there are the colours for it (`palette`)."""
    offered = remedies[:MOST_CHOICES]
    keys = (*(choosing(number) for number in range(1, len(offered) + 1)), CLOSE)

    def rows(columns: int) -> Iterator[Row]:
        room = columns - EDGES
        for text in introduction(opened, outlook, remedies):
            yield from _text_rows(text, room)
        strips = _strips(opened, offered, room, palette)
        if offered:
            yield from _heading_rows(opened, strips, room)
        for number, (remedy, strip) in enumerate(zip(offered, strips.then, strict=True), start=1):
            yield from _remedy_rows(opened, number, remedy, strip, room)
            yield from _picture_rows(strips.drawn[number] if strip and strips.drawn else None)
            yield Row("")
        if best_is_poor(offered):
            yield from _text_rows(best_is_poor(offered), room)
            yield Row("")
        if offered:
            yield from _text_rows(how_to_choose(offered), room)

    return Choices("What to do", lambda columns: tuple(rows(columns)), keys, numbered=True)


class _Strips(Struct, frozen=True):
    """What is left in letters, as it is planned now and by each way out: "" where that is the same."""

    now: str
    then: tuple[str, ...]
    drawn: tuple[Pixels, ...] = ()  # now, then by each way out


def _heading_rows(opened: OpenPiece, strips: _Strips, room: int) -> Iterator[Row]:
    """What the columns are called, and the rest as it is planned now, where any of them changes it."""
    indent = room - FIGURES if room >= BESIDE_FROM else HANG
    yield Row(" " * indent + _in_columns(headings(opened.plan)), detail=True, muted=True)
    if any(strips.then):
        yield Row(f"{' ' * HANG}{strips.now}   as planned", detail=True, muted=True)
        yield from _picture_rows(strips.drawn[0] if strips.drawn else None)
    yield Row("")


def _remedy_rows(opened: OpenPiece, number: int, remedy: Remedy, strip: str, room: int) -> Iterator[Row]:
    """One way out: what to do, its figures, what has no column, and the rest as it would be."""
    told, beside = columns_of(opened.plan, remedy), room >= BESIDE_FROM
    figures = _in_columns(told)
    words_room = room - FIGURES - HANG if beside else room
    first, *more = hanging(f"{number}  {remedy.what}.", words_room, HANG)
    yield Row(padded(first, room - FIGURES) + figures if beside else first, remedy)
    yield from (Row(line, detail=True) for line in more)
    if figures and not beside:
        yield Row(" " * HANG + figures, detail=True)
    if told.more:
        yield from (Row(line, detail=True) for line in hanging(" " * HANG + told.more, room, HANG))
    if strip:
        yield Row(" " * HANG + strip, detail=True, muted=True)


def _picture_rows(pixels: Pixels | None) -> Iterator[Row]:
    """The lines of a picture, as far as there is anything on them."""
    for line in range(len(pixels.rows) // 2 if pixels else 0):
        if pixels and any(pixel for row in pixels.rows[2 * line : 2 * line + 2] for pixel in row):
            yield Row(" " * HANG, detail=True, drawn=DrawnLine(pixels, line))


def _in_columns(told: Columns) -> str:
    chance = f"{told.chance:<{CHANCE}}" if told.chance else ""
    return f"{told.finishes:<{FINISHES}}{chance}{told.cord}" if told.finishes else ""


def _strips(opened: OpenPiece, offered: Sequence[Remedy], room: int, palette: Palette | None) -> _Strips:
    letters, columns = letters_of(opened.plan.beads), room - HANG - AS_PLANNED
    entry, elements = rest_now(opened.plan, opened.piece)
    others = [rest_after(opened.plan, opened.piece, remedy) for remedy in offered]
    now, *rests = [rest_letters(rest, letters) for rest in (elements, *others)]
    then = tuple("" if rest == now else rest_strip(rest, now, columns) for rest in rests)
    drawn: tuple[Pixels, ...] = ()
    if palette is not None and any(then):
        drawn = rest_pictures(opened.plan, entry, [elements, *others], room - HANG, palette)
    return _Strips(rest_strip(now, now, columns), then, drawn)


def _text_rows(text: str, columns: int) -> Iterator[Row]:
    """Text that belongs to no row."""
    return (Row(line, detail=True) for line in hanging(text, columns, 0))


def introduction(opened: OpenPiece, outlook: Outlook, remedies: Sequence[Remedy]) -> list[str]:
    """What there is to put right: the cord, then the length; an empty line after each."""
    alone = joins_alone(remedies)
    told = ways_lines(opened.plan, opened.piece, outlook, bool(remedies), ANSWERS, joins_alone=alone)
    return [line for text in told for line in (text, "")]


def how_to_choose(offered: Sequence[Remedy]) -> str:
    """How one of these is chosen, and that the steps change where any of them changes them."""
    keys = "1" if len(offered) == 1 else f"1 to {len(offered)}"
    suit = "The remaining steps change to suit; u undoes it." if any(one.rests for one in offered) else "u undoes it."
    return f"Choose {keys}. {suit}"
