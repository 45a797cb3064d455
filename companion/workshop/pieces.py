"""The pieces in the store: found, opened, and caught up with where another window has gone on with them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from pathlib import Path

from msgspec.structs import replace

from companion.core.journal.events import Confirmed, Event
from companion.core.journal.fold import fold
from companion.core.journal.pace import LATEST
from companion.core.plan.plan import Plan
from companion.core.values.errors import NotConfirmed, Stale
from companion.storage.folders import digest_of, full_path
from companion.storage.kept import DatedEvent, PieceRow, Summary
from companion.storage.pieces import Store
from companion.workshop.changes import after_event, replanned
from companion.workshop.open_piece import OpenPiece


class Pieces:
    """All pieces, and how much of each one's journal was seen here."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._latest: dict[int, int] = {}  # the newest revision of each piece that was seen here
        self._looked: dict[int, int] = {}  # the store's version when each piece was last caught up with

    def under_way(self, path: Path) -> tuple[PieceRow, ...]:
        """The pieces under way of that design: by its full path or, moved, by equal content. The file is not parsed."""
        rows = [row for row in self._store.rows() if row.state == "under way"]
        full = full_path(path)
        if all(row.design_path == full for row in rows):
            return tuple(rows)
        digest = digest_of(path)
        return tuple(row for row in rows if row.design_path == full or (digest and row.design_digest == digest))

    def open(self, name: str) -> OpenPiece:
        """The piece of that name. Raises NoSuchPiece."""
        row = self._store.row(name)
        return self.opened(row, self._store.plan(row.id))

    def opened(self, row: PieceRow, plan: Plan) -> OpenPiece:
        """The piece of that row, which began with that plan."""
        entries = self._store.journal(row.id)
        opened = OpenPiece(
            row.id,
            row.name,
            plan,
            fold(entry.event for entry in entries),
            len(entries),
            row.design_path,
            row.design_digest,
            row.started_at,
            row.touched_at,
            row.warning,
            _confirmed_at(entries),
        )
        return replanned(opened, opened.piece) if opened.piece.changes or opened.piece.cuts else opened

    def refresh(self, opened: OpenPiece) -> OpenPiece:
        """The piece as it stands now: the very same value where nothing has been written since."""
        version, behind = self._store.version(), opened.revision < self._latest.get(opened.id, 0)
        if version == self._looked.get(opened.id) and not behind:
            return opened
        opened = self._caught_up(opened)
        self._looked[opened.id] = version
        return opened

    def _caught_up(self, opened: OpenPiece) -> OpenPiece:
        entries = self._store.journal(opened.id, opened.revision)
        for entry in entries:
            opened = after_event(opened, entry.event, entry.at)
        if entries:
            opened = replace(opened, warning=self._store.warning(opened.id))
        self._latest[opened.id] = opened.revision
        return opened

    def append(self, new: OpenPiece, events: Sequence[Event], at: datetime, name: str = "") -> None:
        """Store the events that have made the piece what it is now, all or none; `name`: the new one that they gave it.
        Raises Stale, NotStored, NameTaken."""
        first = new.revision - len(events) + 1
        try:
            self._store.append(new.id, first, events, at, Summary.of(new.piece, new.warning), name)
        except NotConfirmed:  # it may be stored: the next look reads the journal anew
            self._looked.pop(new.id, None)
            raise
        self._latest[new.id] = new.revision

    def raise_if_moved_on(self, opened: OpenPiece, error: Exception) -> None:
        """Raises Stale, from that error, where the piece has moved on since it was looked at."""
        current = self._caught_up(opened)
        if current.revision != opened.revision:
            raise Stale(
                f"The piece has changed: {current.piece.done} of {current.piece.total_steps} steps are done now. "
                "Nothing was saved. Look again."
            ) from error


def _confirmed_at(entries: Iterable[DatedEvent]) -> tuple[float, ...]:
    """When the latest confirms were, seconds: for the pace."""
    times = [entry.at.timestamp() for entry in entries if isinstance(entry.event, Confirmed)]
    return tuple(times[-LATEST - 1 :])
