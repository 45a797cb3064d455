"""All readings of a piece, as a list to choose from: the one that is chosen is taken out, or put back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from companion.core.values.errors import WorkshopError
from companion.core.values.text import sentences
from companion.core.words.measured.reading_list_words import NONE_YET, STATES, expected_there, reading_named
from companion.core.words.measured.reason_words import finishes_at
from companion.core.words.measured.verdict_words import verdict_line
from companion.core.words.notices import Notice
from companion.tui.commands import CLOSE, MOST_CHOICES, READING_LIST
from companion.tui.dialogs.choose import ChoiceDialog, Choices
from companion.tui.follow.bounce import KeyBounce
from companion.tui.follow.session import MOVED_ON, PieceSession
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import hanging
from companion.workshop import DatedReading, OpenPiece
from companion.workshop.key_bounce import bounce_seconds

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook
    from companion.tui.page import Page

EDGES = 4  # a space on the left, the scroll bar, and one on each side of it
GAP = 2  # before the word at the end of a row


async def go_over_readings(page: Page, session: PieceSession) -> None:
    """Show all readings of the piece. The one that is chosen is taken out, or put back, and they are shown again, with
    what it comes to now, until the maker leaves them. A key that is held chooses once."""
    bounce = KeyBounce(bounce_seconds(page.workshop.settings.bounce_seconds), clock=page.turns.typed_at)
    chosen, said = None, None
    while True:
        outlook = await session.outlook() if session.piece.state == "under way" else None
        try:
            readings = session.workshop.readings(session.opened)
        except WorkshopError as error:
            session.said = Notice("off", str(error))
            return
        shown = session.piece.all_readings
        choices = reading_choices(session.opened, readings, outlook, said, chosen)
        number = await page.answer(ChoiceDialog(choices))
        if number is None:
            return
        if bounce.counts(str(number)) and session.may_write():
            if session.piece.all_readings == shown:
                session.turn_reading(number)
            else:  # another window has gone on with it: the number may mean another reading now
                session.said = MOVED_ON
        chosen, said = number, session.in_doubt or session.said


def reading_choices(
    opened: OpenPiece,
    readings: Sequence[DatedReading],
    outlook: Outlook | None,
    said: Notice | None = None,
    begin_with: int | None = None,
) -> Choices[int]:
    """Every reading with its number, when, where and what it was, what was expected, and whether it counts. `outlook`:
    what it all comes to; None for a piece that has ended, of which nothing is taken out any more. `said`: what was
    done just now."""
    open_ones = outlook is not None and any(one.listed.number for one in readings)
    told = tuple(_said(opened, outlook, said)) if outlook is not None and readings else ()

    def rows(columns: int) -> Iterator[Row]:
        room = columns - EDGES
        for one in readings:
            yield from _reading_rows(opened, one, room, open_ones)
            yield Row("")
        last = _how_to(len(opened.piece.all_readings)) if open_ones else "" if readings else NONE_YET
        yield from (Row(line, detail=True) for line in hanging(last, room, 0))

    keys = READING_LIST if open_ones else (CLOSE,)
    return Choices("Readings", lambda columns: tuple(rows(columns)), keys, True, begin_with, told)


def _how_to(count: int) -> str:
    number = "its number" if count <= MOST_CHOICES else f"a number up to {MOST_CHOICES}"
    return f"Type {number}, or move to a reading and press Enter: it is taken out, or put back."


def _said(opened: OpenPiece, outlook: Outlook, said: Notice | None) -> Iterator[Notice]:
    """What was done just now, then what it all comes to."""
    if said:
        yield said
    verdict = verdict_line(opened.plan, opened.piece, outlook)
    yield Notice(verdict.level, f"Finishes at {finishes_at(opened.plan, opened.piece, outlook)}.", verdict.headline)


def _reading_rows(opened: OpenPiece, one: DatedReading, room: int, open_ones: bool) -> Iterator[Row]:
    plan, listed = opened.plan, one.listed
    number = "·" if listed.number is None else str(listed.number)
    indent = len(number) + GAP
    named = f"{number}{' ' * GAP}{reading_named(plan, listed.measured)}"
    state, value = STATES[listed.state], listed.number if open_ones else None
    first, *more = hanging(named, room - len(state.mark) - GAP, indent)
    yield Row(first, value, state.mark, detail=value is None)
    yield from (Row(line, detail=True) for line in more)
    when = f"{one.at.astimezone():%Y-%m-%d %H:%M}."
    told = hanging(" " * indent + sentences(when, expected_there(plan, listed), state.why), room, indent)
    yield from (Row(line, detail=True, muted=True) for line in told)
