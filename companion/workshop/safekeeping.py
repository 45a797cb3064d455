"""What keeps the pieces safe: dated copies, one document of everything both ways, and what is left of a broken file."""

from __future__ import annotations

from companion.core.troubles import WorkshopError
from companion.storage.pieces import Store


class Safekeeping:
    """Copies and documents of all pieces and cards."""

    _store: Store

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
