"""The pieces of the bench, a line each: how far, when last touched, and any warning, in columns that agree."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import datetime

from companion.tui.routes import ToPiece
from companion.tui.widgets.rows import Row
from companion.tui.widgets.wrapping import padded
from companion.workshop import PieceRow

NAME_COLUMNS = (26, 20, 14)  # the widest that fits is taken
DOTS = (20, 8, 0)
LEAST_NAME = 8
ROW_EDGES = 6  # the cursor's columns, the scroll bar's, and a space round a mark


def piece_rows(pieces: Sequence[PieceRow], columns: int) -> list[Row]:
    """A row for each piece, by its design, or by its own name where several are of one; it leads to the piece.

    What there is no room for goes in this order: dots, name, when it was touched.
    """
    marks = [f"▲ {piece.warning}" if piece.warning and piece.state == "under way" else "" for piece in pieces]
    counts = [f"{piece.steps_done} of {piece.steps_total}" for piece in pieces]
    touched = [since(piece.touched_at) for piece in pieces]
    count_room = max(map(len, counts), default=0)
    touched_room, mark_room = max(map(len, touched), default=0), max(map(len, marks), default=0)
    room = columns - ROW_EDGES - count_room - mark_room - 2
    if room < LEAST_NAME + 3 + touched_room:
        touched_room = 0
    room -= 3 + touched_room if touched_room else 0
    name, dots = next(
        ((name, dots) for name, dots in zip(NAME_COLUMNS, DOTS, strict=True) if name + dots + bool(dots) <= room),
        (max(LEAST_NAME, room), 0),
    )
    if not dots:
        name = max(name, min(NAME_COLUMNS[0], room))
    shared = {design for design, number in Counter(piece.design_name for piece in pieces).items() if number > 1}
    rows = []
    for piece, count, when, mark in zip(pieces, counts, touched, marks, strict=True):
        made = "•" * (piece.steps_done * dots // max(1, piece.steps_total))
        parts = [
            padded(piece.name if piece.design_name in shared else piece.design_name, name),
            f"{made:◦<{dots}}" if dots else "",
            f" {count:<{count_room}}",
        ]
        text = " ".join(part for part in parts if part) + (f"   {when}" if touched_room else "")
        rows.append(Row(text, ToPiece(piece.name), mark))
    return rows


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
