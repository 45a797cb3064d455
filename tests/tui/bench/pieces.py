"""Pieces as the bench has them."""

from __future__ import annotations

from datetime import UTC, datetime

from companion.core.journal.piece import State
from companion.workshop import PieceRow

AT = datetime(2026, 12, 1, 18, 0, tzinfo=UTC)


def piece(name: str, done: int, total: int, warning: str = "", state: State = "under way", number: int = 1) -> PieceRow:
    """A piece of a design of the same name."""
    return PieceRow(
        id=number,
        name=name,
        design_name=name,
        design_path=f"/designs/{name}.yaml",
        design_digest="",
        steps_done=done,
        steps_total=total,
        state=state,
        started_at=AT,
        touched_at=AT,
        warning=warning,
    )
