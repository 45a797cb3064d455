"""The use cases: what a maker can do, on the pieces, designs and cords that are kept."""

from companion.core.values.errors import NotPossible
from companion.storage.kept import DatedEvent, Holder, PieceRow
from companion.workshop.open_piece import OpenPiece, warning_of
from companion.workshop.results import DatedReading, Planned, Teaching
from companion.workshop.workshop import Workshop, open_at

__all__ = [
    "DatedEvent",
    "DatedReading",
    "Holder",
    "NotPossible",
    "OpenPiece",
    "PieceRow",
    "Planned",
    "Teaching",
    "Workshop",
    "open_at",
    "warning_of",
]
