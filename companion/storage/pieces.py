"""The store of pieces, each with its design, its compiled plan and its journal. Events are only ever added to a
journal."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path

from companion.core.journal.events import Event
from companion.core.journal.names import alike, free_name
from companion.core.plan.plan import Plan
from companion.core.values.errors import NameTaken, NoSuchPiece, NotADatabase, Stale
from companion.core.values.text import join_words, plain
from companion.storage import rows
from companion.storage.database import Clock, Database
from companion.storage.kept import DatedEvent, DesignCopy, KeptPiece, PieceRow, Summary


class Store:
    """All pieces in one database file, which is opened when first needed and made when first written to."""

    def __init__(self, path: Path, new_uid: Callable[[], str], now: Clock) -> None:
        self.path, self.now = path, now
        self.database = Database(path, now)
        self._new_uid = new_uid

    def rows(self) -> tuple[PieceRow, ...]:
        """Every piece, the most recently touched first."""
        if not self.database.is_there():
            return ()
        with self.database.reading() as db:
            return rows.piece_rows(db)

    def sizes(self, after: int = 0) -> dict[int, str]:
        """The size of each piece with a number beyond `after`, as its maker wrote it; "" if it has none."""
        if not self.database.is_there():
            return {}
        with self.database.reading() as db:
            return rows.sizes(db, after)

    def row(self, name: str) -> PieceRow:
        """The piece of that name, or the only one whose name begins with it. Raises NoSuchPiece."""
        wanted = alike(name)
        found = self.rows()
        exact = [row for row in found if alike(row.name) == wanted]
        begins = exact or [row for row in found if wanted and alike(row.name).startswith(wanted)]
        if len(begins) == 1:
            return begins[0]
        if begins:
            names = join_words([row.name for row in begins[:6]])
            raise NoSuchPiece(f"Several pieces begin with {plain(name)}: {names}. Write more of the name.")
        raise NoSuchPiece(f"There is no piece named {plain(name)}. `tallycord pieces` lists them.")

    def add(self, plan: Plan, design: DesignCopy, events: Sequence[Event], at: datetime, summary: Summary) -> PieceRow:
        """A new piece with its first events, in one transaction."""
        with self.database.writing() as db:
            name = free_name(design.name, rows.names_taken(db))
            journal = tuple(DatedEvent(at, event) for event in events)
            rows.add_piece(db, KeptPiece(self._new_uid(), name, design, plan, at, journal, summary))
        return self.row(name)

    def append(
        self, piece_id: int, seq: int, events: Sequence[Event], at: datetime, summary: Summary, name: str = ""
    ) -> None:
        """Add events to a journal, the first with number `seq`. All are on disk when this returns. `name`: the piece's
        name from then on, "" if it stays the same.

        Raises Stale if the journal already has that many events, because someone else wrote, and NameTaken if another
        piece has that name or one like it. Then nothing is written.
        """
        with self.database.writing() as db:
            if rows.last_event(db, piece_id) != seq - 1:
                raise Stale("The piece has changed since: nothing was saved.")
            if name:
                other = rows.names_taken(db, apart_from=piece_id).get(alike(name))
                if other is not None:
                    raise NameTaken(f"Another piece is named {plain(other)}. Give this one a name of its own.")
                rows.rename(db, piece_id, name)
            rows.add_events(db, piece_id, [DatedEvent(at, event) for event in events], seq - 1, summary)

    def plan(self, piece_id: int) -> Plan:
        """The piece's own copy of its compiled plan. Raises NotADatabase if it cannot be read."""
        with self.database.reading() as db:
            try:
                return rows.plan_of(db, piece_id)
            except ValueError as error:
                raise NotADatabase(f"The plan kept with this piece can't be read: {plain(str(error))}.") from error

    def design_text(self, piece_id: int) -> str:
        """The piece's own copy of its design file."""
        with self.database.reading() as db:
            return rows.design_text(db, piece_id)

    def journal(self, piece_id: int, after: int = 0) -> tuple[DatedEvent, ...]:
        """The events of a piece after number `after`, in order. Raises NotADatabase if one cannot be read."""
        with self.database.reading() as db:
            try:
                return tuple(rows.journal(db, piece_id, after))
            except ValueError as error:
                raise NotADatabase(f"The journal of this piece can't be read: {plain(str(error))}.") from error

    def warning(self, piece_id: int) -> str:
        """The short warning of the piece on the bench, one or two words."""
        with self.database.reading() as db:
            return rows.warning_of(db, piece_id)

    def set_warning(self, piece_id: int, seq: int, word: str) -> None:
        """Set that warning on the bench, as long as event number `seq` is the piece's latest."""
        with self.database.writing() as db:
            if rows.last_event(db, piece_id) == seq:
                rows.set_warning(db, piece_id, word)

    def version(self) -> int:
        """A number that changes once another connection has written; writing through this one leaves it as it is.
        Cheap."""
        with self.database.reading() as db:
            (version,) = db.execute("PRAGMA data_version").fetchone()
        return int(version)

    def state(self) -> tuple[int, ...]:
        """A value that changes whenever anything is written, here or elsewhere. Cheap: no row is read."""
        return (self.version(), self.database.open().total_changes) if self.database.is_there() else ()
