"""The pieces of the bench, a line each: name, size, how far, when last touched, and any warning, in columns that
agree."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from msgspec import Struct
from rich.cells import cell_len

from companion.core.journal.names import shown_name
from companion.core.words.marks import warned
from companion.tui.routes import ToPiece
from companion.tui.widgets.rows import Row, StripPlace
from companion.tui.widgets.wrapping import padded, shortened
from companion.workshop import PieceRow

MOST_NAME, SHORT_NAME, LEAST_NAME = 26, 18, 8
MOST_SIZE = 18
GAP = 2  # between two columns
STEPS = " steps"
LEAST_DOTS, ENOUGH_DOTS, MOST_DOTS = 8, 16, 24
ROW_EDGES = 6  # the cursor's columns, the scroll bar's, and a space round a mark


class _Room(Struct, frozen=True):
    """How many columns the parts of a row have."""

    name: int
    size: int
    dots: int
    word: str  # after the count


def piece_rows(pieces: Sequence[PieceRow], sizes: Sequence[str], columns: int, beads_first: bool = False) -> list[Row]:
    """A row for each piece, by its name; it leads to the piece.

    What there is no room for goes in this order: dots, in whose place its beads stand once they are known, the word
    after the count, some of the name, the size, when it was touched. `beads_first`: the size goes before the dots, for
    it stands beside the list.
    """
    marks = [warned(piece.warning) if piece.state == "under way" else "" for piece in pieces]
    names = [shown_name(piece.name, piece.design_name) for piece in pieces]
    counts = _counts(pieces)
    touched = [since(piece.touched_at) for piece in pieces]
    mark_room, count_room, touched_room = _widest(marks), _widest(counts), GAP + _widest(touched)
    room = columns - ROW_EDGES - GAP - count_room - mark_room
    if room < LEAST_NAME + touched_room:
        touched_room = 0
    shares = _shares(room - touched_room, _widest(names), min(MOST_SIZE, _widest(sizes)), beads_first)
    strip = StripPlace(shares.name + GAP + (shares.size and shares.size + GAP), shares.dots) if shares.dots else None
    rows = []
    for piece, name, size, count, when, mark in zip(pieces, names, sizes, counts, touched, marks, strict=True):
        parts = [
            padded(shortened(name, shares.name), shares.name),
            padded(shortened(size, shares.size), shares.size),
            _dots(piece, shares.dots),
            padded(count + shares.word, count_room + len(shares.word)),
            when if touched_room else "",
        ]
        text = (" " * GAP).join(part for part in parts if part)
        rows.append(Row(text, ToPiece(piece.name), padded(mark, mark_room) if mark else "", strip=strip))
    return rows


def _counts(pieces: Sequence[PieceRow]) -> list[str]:
    """How many steps are done of how many, with "of" below "of"."""
    done = len(str(max((piece.steps_done for piece in pieces), default=0)))
    return [f"{piece.steps_done:>{done}} of {piece.steps_total}" for piece in pieces]


def _dots(piece: PieceRow, dots: int) -> str:
    made = "•" * (piece.steps_done * dots // max(1, piece.steps_total))
    return f"{made:◦<{dots}}"


def _widest(texts: Sequence[str]) -> int:
    return max(map(cell_len, texts), default=0)


def _shares(room: int, longest_name: int, size: int, beads_first: bool) -> _Room:
    """The shares of so many columns in all."""
    whole, gap = max(LEAST_NAME, longest_name), size and size + GAP
    name = min(MOST_NAME, whole)
    if beads_first and room - name - gap - GAP - len(STEPS) < LEAST_DOTS <= room - name - GAP:
        word = STEPS if room - name - GAP - len(STEPS) >= ENOUGH_DOTS else ""
        return _Room(name, 0, min(room - name - GAP - len(word), MOST_DOTS), word)
    for wished in (whole, name):
        dots = room - wished - gap - GAP - len(STEPS)
        if dots >= LEAST_DOTS:
            return _Room(wished, size, min(dots, MOST_DOTS), STEPS)
    for word in (STEPS, ""):
        if name + gap + len(word) <= room:
            return _Room(name, size, 0, word)
    if min(SHORT_NAME, name) + gap <= room:
        return _Room(room - gap, size, 0, "")
    return _Room(max(LEAST_NAME, min(name, room)), 0, 0, "")


def since(at: datetime, now: datetime | None = None) -> str:
    """When a piece was last touched, in plain words."""
    now = now or datetime.now(at.tzinfo)
    days = (now.astimezone().date() - at.astimezone().date()).days
    if days <= 0:
        minutes = int((now - at).total_seconds() // 60)
        return "just now" if minutes < 5 else f"{minutes} min ago" if minutes < 90 else "today"
    if days == 1:
        return "yesterday"
    return f"{at.astimezone():%A}" if days < 7 else f"{at.astimezone():%d %b %Y}"
