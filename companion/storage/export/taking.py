"""Importing an export: it is read item by item, every item is checked, and all of it is stored in one transaction, or
none."""

from __future__ import annotations

import sqlite3
import stat
from pathlib import Path
from typing import Any

from companion.core.values.errors import WorkshopError
from companion.core.values.merge_result import Merged
from companion.core.values.text import plain
from companion.storage.database import Database
from companion.storage.export.document import EARLIER_KIND, FORMAT, KIND, LATER_LISTS, LISTS
from companion.storage.export.json_items import MOST_BYTES, CannotRead, Item, items
from companion.storage.export.merging import merge_bead, merge_card, merge_piece
from companion.storage.export.reading import NotOurs, bead_of, card_of, piece_of
from companion.storage.sentences import reason

ALL_LISTS = (*LISTS, *LATER_LISTS)
KEYS = ("format", "kind", "made_at", *ALL_LISTS)


def take_in(database: Database, place: Path) -> Merged:
    """Everything in that file, merged with what is here. Raises WorkshopError if anything in it cannot be right, and
    NotStored if it cannot be stored; then nothing is taken in."""
    shown = plain(str(place))
    data = _bytes_of(place, shown)
    merged = Merged()
    seen: set[str] = set()
    with database.writing() as db:
        try:
            for item in items(data, ALL_LISTS):
                seen.add(item.key)
                _take_item(db, item, merged)
            for key in ("format", "kind", *LISTS):
                if key not in seen:
                    raise NotOurs(f"«{key}» is missing: this is no export of Tallycord")
        except (CannotRead, NotOurs) as error:
            raise WorkshopError(f"{shown}: {error}. Nothing was taken from it.") from error
    return merged


def _bytes_of(place: Path, shown: str) -> bytes:
    try:
        mode = place.stat().st_mode
        if not stat.S_ISREG(mode):  # asked before opening: opening a pipe would wait for somebody to write
            raise WorkshopError(f"{shown} is {'a folder' if stat.S_ISDIR(mode) else 'no plain file'}.")
        with place.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        words = reason(error) if isinstance(error, OSError) else "no such name"
        raise WorkshopError(f"{shown} can't be read: {words}.") from error
    if len(data) > MOST_BYTES:
        raise WorkshopError(f"{shown}: The file is larger than {MOST_BYTES >> 20} MiB. Nothing was taken from it.")
    return data


def _take_item(db: sqlite3.Connection, item: Item, merged: Merged) -> None:
    if item.number == 0:
        _check_head(item.key, item.value)
        return
    try:
        if item.key == "pieces":
            merge_piece(db, piece_of(item.value), merged)
        elif item.key == "beads":
            merge_bead(db, bead_of(item.value), merged)
        else:
            merge_card(db, card_of(item.value), merged)
    except NotOurs as error:
        named = item.value.get("name") if isinstance(item.value, dict) else None
        name = f" ({plain(named, 40)})" if isinstance(named, str) and plain(named, 40) else ""
        raise NotOurs(f"{item.key}, number {item.number}{name}: {error}") from error


def _check_head(key: str, value: Any) -> None:
    if key not in KEYS:
        raise NotOurs(f"«{plain(key, 40)}» is not known")
    if key == "kind" and value not in (KIND, EARLIER_KIND):
        raise NotOurs(f"the kind is not «{KIND}»")
    if key == "format" and (value != FORMAT or type(value) is not int):
        found = plain(str(value), 20) if isinstance(value, (int, str)) else "none"
        raise NotOurs(f"found format {found}; this version reads format {FORMAT}")
    if key in ALL_LISTS and value is not None:
        raise NotOurs(f"«{key}» is no list")
