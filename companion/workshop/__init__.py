"""The use cases: what a maker can do, on the pieces, designs and cords that are kept."""

from companion.core.events import NotPossible
from companion.storage.holding import Hand
from companion.storage.pieces import Entry, PieceRow
from companion.workshop.design_desk import Planned
from companion.workshop.teaching import Teaching
from companion.workshop.work_piece import WorkPiece, trouble
from companion.workshop.workshop import Workshop, open_at

__all__ = [
    "Entry",
    "Hand",
    "NotPossible",
    "PieceRow",
    "Planned",
    "Teaching",
    "WorkPiece",
    "Workshop",
    "open_at",
    "trouble",
]
