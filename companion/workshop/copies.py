"""What keeps the pieces safe: dated copies, one document of everything both ways, and what is left of a broken file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Any

from companion.core.values.errors import WorkshopError
from companion.storage.pieces import Store

if TYPE_CHECKING:
    from companion.core.values.merge_result import Merged
    from companion.core.values.rescue_result import Rescue


class Safekeeping:
    """Copies and documents of all pieces and cards."""

    _store: Store
    _imported: bool = False  # whether anything was taken in

    def keep_a_copy(self) -> str:
        """A dated copy of all pieces where the last is a day old; what went wrong, "" for nothing.

        Never raises for what the disk does: a copy that can't be made stops nobody. Safe in a thread of its own: it has
        a connection of its own, and holds up a window that writes for milliseconds.
        """
        from companion.storage.backups import back_up_where_due

        try:
            back_up_where_due(self._store.path, self._store.now())
        except WorkshopError as error:
            return f"No copy of the pieces could be kept today. {error}"
        return ""

    def export_lines(self) -> Iterator[str]:
        """All pieces and cards as one JSON document, line by line: a piece at a time is in memory."""
        from companion.storage.database import Database
        from companion.storage.export.writing import export_lines

        at = self._store.now()
        if not self._store.database.is_there():
            yield from export_lines(None, at)
            return
        with closing(Database(self._store.path, self._store.now)) as database, database.reading() as db:
            yield from export_lines(db, at)

    def export_to(self, place: Path, over: bool = False) -> None:
        """The same as a file that only its owner may read. Raises NotStored where it is there already, but `over`."""
        from companion.storage.export.writing import write_new

        write_new(place, self.export_lines(), over)

    def import_from(self, place: Path) -> Merged:
        """Take an export in: all of it in one transaction. Raises WorkshopError, and then nothing was taken."""
        from companion.storage.database import Database
        from companion.storage.export.taking import take_in

        with closing(Database(self._store.path, self._store.now)) as database:
            merged = take_in(database, place)
            self._imported = self._imported or database.has_written
        return merged

    def export_schema(self) -> dict[str, Any]:
        """The JSON Schema of an export."""
        from companion.storage.export.schema import export_schema

        return export_schema()

    def look_for_rescue(self) -> Rescue:
        """What reads of the file of pieces and of its newest good copy. Nothing is changed. Raises WorkshopError."""
        from companion.storage.rescue import look

        return look(self._store.path)

    def rescue(self) -> Rescue:
        """Put a new file of pieces in the place of a broken one, from all that reads; the broken one is kept beside it.
        Only on the maker's word. Raises WorkshopError, and then the file is as it was."""
        from companion.storage.rescue import rescue

        self._store.database.close()
        return rescue(self._store.path, self._store.now())
