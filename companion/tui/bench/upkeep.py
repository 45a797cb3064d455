"""What is done to pieces on the bench: a new name, put away, taken up again; and the latest of it undone."""

from __future__ import annotations

from msgspec import Struct

from companion.core.journal.names import shown_name
from companion.core.values.errors import NotPossible
from companion.workshop import OpenPiece, PieceRow, Workshop


class Upkept(Struct, frozen=True):
    """What came of it: the piece's name now, and what is to be said."""

    name: str
    said: str


class PieceUpkeep:
    """Each is an event in the piece's journal, on disk before it is said."""

    def __init__(self, workshop: Workshop) -> None:
        self._workshop = workshop
        self._latest: OpenPiece | None = None  # the piece after what was done here last

    @property
    def can_undo(self) -> bool:
        """Whether something was done here that is not undone yet."""
        return self._latest is not None

    def rename(self, piece: PieceRow, name: str) -> Upkept:
        """Another name. Raises WorkshopError or NotPossible."""
        before = shown_name(piece.name, piece.design_name)
        self._latest = opened = self._workshop.rename(self._workshop.open(piece.name), name)
        return Upkept(opened.name, f"{before} is now named {opened.name}. u undoes it.")

    def put_away(self, piece: PieceRow, reason: str) -> Upkept:
        """Put it away. Raises WorkshopError or NotPossible."""
        self._latest = opened = self._workshop.abandon(self._workshop.open(piece.name), reason)
        return Upkept(opened.name, f"{_shown(opened)} is put away, below. a takes it up again.")

    def take_up(self, piece: PieceRow) -> Upkept:
        """Take it up again. Raises WorkshopError or NotPossible."""
        self._latest = opened = self._workshop.take_up(self._workshop.open(piece.name))
        return Upkept(opened.name, f"{_shown(opened)} is under way again. Enter goes on with it.")

    def undo(self) -> Upkept:
        """Undo the latest of these. Raises NotPossible where there is none, Stale where the piece has moved on."""
        if self._latest is None:
            raise NotPossible("Nothing was done here yet that could be undone. Steps are undone in the piece itself.")
        opened, self._latest = self._workshop.undo(self._latest), None
        stands = {"under way": "under way", "abandoned": "put away", "finished": "finished"}[opened.piece.state]
        return Upkept(opened.name, f"Undone: {_shown(opened)} has its name again and is {stands}, as before.")


def _shown(opened: OpenPiece) -> str:
    return shown_name(opened.name, opened.plan.design)
