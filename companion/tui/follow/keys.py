"""The keys at the foot of the follow screen: those that do something now."""

from __future__ import annotations

from companion.tui.commands import (
    CONFIRM,
    CORD,
    FINISH,
    HELP,
    JUMP,
    LEAVE,
    MEASURE,
    NOTE,
    REOPEN,
    TAKE_OVER,
    TAKE_UP,
    UNDO,
    Command,
)
from companion.tui.follow.session import PieceSession


def foot_keys(session: PieceSession) -> tuple[Command, ...]:
    """Of a piece that is open elsewhere, ended, or under way."""
    if session.open_elsewhere:
        return TAKE_OVER, LEAVE, HELP
    if session.piece.state != "under way":
        return TAKE_UP if session.piece.state == "abandoned" else REOPEN, LEAVE, HELP
    step = CONFIRM if session.piece.done < session.piece.total_steps else FINISH
    return step, UNDO, MEASURE, CORD, NOTE, JUMP, LEAVE, HELP
