"""The keys at the foot of the follow screen: those that do something now."""

from __future__ import annotations

from companion.tui.commands import (
    CAUTIONS,
    CHART,
    CONFIRM,
    CORD,
    FINISH,
    FOLLOW,
    FROM_AFAR,
    HELP,
    JUMP,
    LEAVE,
    LORE,
    MEASURE,
    NOTE,
    PALETTE,
    READINGS,
    REDO,
    REOPEN,
    SHOW_PLAN,
    TAKE_OVER,
    TAKE_UP,
    THEME,
    UNDO,
    WITHDRAW,
    Command,
)
from companion.tui.follow.session import PieceSession

# What writes nothing, and so can be done wherever the piece is open and however it stands.
ONLY_LOOKS = (LORE, READINGS, CHART, CAUTIONS, SHOW_PLAN, FROM_AFAR, HELP, PALETTE, THEME, LEAVE)


def foot_keys(session: PieceSession) -> tuple[Command, ...]:
    """Of a piece that is open elsewhere, ended, or under way."""
    if session.open_elsewhere:
        return TAKE_OVER, LEAVE, HELP
    if session.piece.state != "under way":
        return TAKE_UP if session.piece.state == "abandoned" else REOPEN, LEAVE, HELP
    step = CONFIRM if session.piece.done < session.piece.total_steps else FINISH
    return step, UNDO, MEASURE, CORD, NOTE, JUMP, LEAVE, HELP


def commands_now(session: PieceSession) -> tuple[Command, ...]:
    """All that does something of a piece as it stands."""
    piece = session.piece
    all_done = piece.done == piece.total_steps
    looks = tuple(one for one in ONLY_LOOKS if one is not LORE or not all_done)
    if session.open_elsewhere:
        return (TAKE_OVER, *looks)
    if piece.state != "under way":
        return (TAKE_UP if piece.state == "abandoned" else REOPEN, *looks)
    idle = {TAKE_OVER} | ({LORE} if all_done else set())
    idle |= {command for command, ready in _ready(session) if not ready}
    return tuple(FINISH if one is CONFIRM and all_done else one for one in FOLLOW if one not in idle)


def _ready(session: PieceSession) -> tuple[tuple[Command, bool], ...]:
    """What goes back or forth needs something to go to."""
    piece = session.piece
    return (UNDO, piece.before is not None), (REDO, piece.later is not None), (WITHDRAW, bool(piece.readings))
