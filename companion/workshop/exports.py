"""All pieces and cards as one document, both ways."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

from companion.core.values.merge_result import Merged
from companion.storage.database import Database
from companion.storage.export.schema import export_schema
from companion.storage.export.taking import take_in
from companion.storage.export.writing import export_lines, write_new
from companion.storage.pieces import Store


class Exports:
    """Exports of all that is kept in the store."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def lines(self) -> Iterator[str]:
        """All pieces and cards as one JSON document, line by line: a piece at a time is in memory."""
        at = self._store.now()
        if not self._store.database.is_there():
            yield from export_lines(None, at)
            return
        with closing(Database(self._store.path, self._store.now)) as database, database.reading() as db:
            yield from export_lines(db, at)

    def write(self, place: Path, over: bool = False) -> None:
        """The same, as a file that only its owner may read. Raises NotStored where it is there already, but `over`."""
        write_new(place, self.lines(), over)

    def take_in(self, place: Path) -> Merged:
        """Take an export in: all of it in one transaction. Raises WorkshopError, and then nothing was taken."""
        return take_in(self._store.database, place)

    def schema(self) -> dict[str, Any]:
        """The JSON Schema of an export."""
        return export_schema()
