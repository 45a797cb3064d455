"""The pieces of the bench, a line each: name, size, how far, when last touched, and any warning, in columns that
agree."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from rich.cells import cell_len

from companion.core.journal.names import shown_name
from companion.tui.routes import ToPiece
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import padded, shortened
from companion.workshop import PieceRow

MOST_NAME, SHORT_NAME, LEAST_NAME = 26, 18, 8
MOST_SIZE = 18
DOTS = (20, 8)
ROW_EDGES = 6  # the cursor's columns, the scroll bar's, and a space round a mark


def piece_rows(pieces: Sequence[PieceRow], sizes: Sequence[str], columns: int) -> list[Row]:
    """A row for each piece, by its name; it leads to the piece.

    What there is no room for goes in this order: dots, some of the name, the size, when it was touched.
    """
    marks = [f"▲ {piece.warning}" if piece.warning and piece.state == "under way" else "" for piece in pieces]
    names = [shown_name(piece.name, piece.design_name) for piece in pieces]
    counts = [f"{piece.steps_done} of {piece.steps_total}" for piece in pieces]
    touched = [since(piece.touched_at) for piece in pieces]
    count_room, touched_room, mark_room = _widest(counts), _widest(touched), _widest(marks)
    room = columns - ROW_EDGES - count_room - mark_room - 2
    if room < LEAST_NAME + 3 + touched_room:
        touched_room = 0
    room -= 3 + touched_room if touched_room else 0
    name_room, size_room, dots = _shares(room, _widest(names), min(MOST_SIZE, _widest(sizes)))
    rows = []
    for piece, name, size, count, when, mark in zip(pieces, names, sizes, counts, touched, marks, strict=True):
        made = "•" * (piece.steps_done * dots // max(1, piece.steps_total))
        parts = [
            padded(shortened(name, name_room), name_room),
            f" {padded(shortened(size, size_room), size_room)}" if size_room else "",
            f"{made:◦<{dots}}" if dots else "",
            f" {count:<{count_room}}",
        ]
        text = " ".join(part for part in parts if part) + (f"   {when}" if touched_room else "")
        rows.append(Row(text, ToPiece(piece.name), mark))
    return rows


def _widest(texts: Sequence[str]) -> int:
    return max(map(cell_len, texts), default=0)


def _shares(room: int, longest_name: int, size: int) -> tuple[int, int, int]:
    """How many columns the name has, the size and the dots, of so many in all."""
    name = max(LEAST_NAME, min(MOST_NAME, longest_name))
    short = min(SHORT_NAME, name)
    gap = size and size + 2
    for wanted, dots in ((name, DOTS[0]), (name, DOTS[1]), (name, 0), (short, 0)):
        if wanted + gap + (dots and dots + 1) <= room:
            return wanted, size, dots
    return max(LEAST_NAME, min(name, room)), 0, 0


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
