"""The keys at the foot of the bench: what they do to the row under the cursor."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from companion.core.journal.piece import State
from companion.tui.bench.contents import Contents
from companion.tui.commands import (
    BENCH,
    COPY,
    CORDS_KEY,
    DRAW,
    FIND,
    HELP,
    NEW,
    NEW_CARD,
    OPEN,
    OPEN_CARD,
    PUT_AWAY,
    QUIT,
    RENAME,
    SHOW_ALL,
    SHOW_PLAN,
    TRY,
    UNDO_HERE,
    Command,
)
from companion.tui.routes import ToCard, ToDesign, ToPiece
from companion.workshop import PieceRow

ANOTHER = replace(NEW, short="another")
_BEGIN = replace(OPEN, short="begin")
PLAN_OF_IT, COPY_OF_IT = replace(SHOW_PLAN, short="plan"), replace(COPY, short="copy")
PIECE_KEYS: dict[State, tuple[Command, ...]] = {
    "under way": (OPEN, RENAME, PUT_AWAY, ANOTHER),
    "finished": (replace(OPEN, short="open"), RENAME, ANOTHER),
    "abandoned": (replace(OPEN, short="look at it"), replace(PUT_AWAY, short="take up again"), RENAME, ANOTHER),
}


def row_keys(contents: Contents, chosen: object, filtered: bool) -> tuple[Command, ...]:
    """The keys for the row that leads there, then those for the whole bench."""
    leave = SHOW_ALL if filtered else QUIT
    if not contents.pieces:
        return (*_first_keys(chosen), DRAW, CORDS_KEY, TRY, FIND, HELP, leave)
    match chosen:
        case ToPiece(name):
            piece = piece_named(contents, name)
            own = PIECE_KEYS[piece.state] if piece else (OPEN,)
            return (*own, FIND, HELP, leave)
        case ToDesign(path):
            return (*_design_keys(contents, path), DRAW, CORDS_KEY, FIND, HELP, leave)
        case ToCard():
            return (OPEN_CARD, NEW_CARD, CORDS_KEY, FIND, HELP, leave)
    return (DRAW, CORDS_KEY, FIND, HELP, leave)


def commands_now(contents: Contents, chosen: object, filtered: bool, undoable: bool) -> tuple[Command, ...]:
    """All that does something with the cursor there. `undoable`: whether something was done to a piece here."""
    idle: set[Command] = set() if undoable else {UNDO_HERE}
    piece = piece_named(contents, chosen.name) if isinstance(chosen, ToPiece) else None
    if piece is None:
        idle |= {RENAME, PUT_AWAY} | (set() if isinstance(chosen, ToDesign) else {SHOW_PLAN})
    elif piece.state == "finished":
        idle |= {PUT_AWAY}
    if not isinstance(chosen, ToDesign):
        idle |= {COPY}
    if chosen is None:
        idle |= {OPEN, NEW}
    shown = tuple(command for command in BENCH if command not in idle)
    return tuple(SHOW_ALL if command is QUIT and filtered else command for command in shown)


def piece_named(contents: Contents, name: str) -> PieceRow | None:
    """The piece of that name, as it lies on the bench."""
    return contents.by_name.get(name)


def drawn_by(contents: Contents, value: object) -> PieceRow | Path | None:
    """What is drawn in a row that leads there: a piece, a design, or nothing."""
    match value:
        case ToPiece(name):
            return piece_named(contents, name)
        case ToDesign(path):
            return path
    return None


def way_now(before: Contents, now: Contents, chosen: object) -> object:
    """The way that a row leads now: its piece may have been given another name elsewhere."""
    piece = piece_named(before, chosen.name) if isinstance(chosen, ToPiece) else None
    if piece is None:
        return chosen
    return next((ToPiece(one.name) for one in now.pieces if one.id == piece.id), chosen)


def _first_keys(chosen: object) -> tuple[Command, ...]:
    """Of a bench on which nothing was made yet."""
    match chosen:
        case ToDesign():
            return (_BEGIN, PLAN_OF_IT, COPY_OF_IT)
        case ToCard():
            return (OPEN_CARD, NEW_CARD)
    return ()


def _design_keys(contents: Contents, path: Path) -> tuple[Command, ...]:
    """Enter begins a piece of it, or goes on with the one under way: then + begins another."""
    under_way = any(piece.state == "under way" and piece.design_path == str(path) for piece in contents.pieces)
    return (OPEN, ANOTHER, PLAN_OF_IT, COPY_OF_IT) if under_way else (_BEGIN, PLAN_OF_IT, COPY_OF_IT)
