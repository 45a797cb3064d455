"""What can be saved of a broken file of pieces, and what was."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct


class Source(Struct, frozen=True):
    """What reads of one file: how much of each, and in words what does not."""

    name: str
    pieces: int
    events: int
    cards: int
    lost: tuple[str, ...] = ()


class Rescue(Struct, frozen=True):
    """The file's state, what reads of it and of the newest good copy (None: there is none).

    `aside`: the name under which the broken file was kept, "" where nothing was done. `apart`: pieces and cards that
    the two have differently; the file's stand.
    """

    state: Literal["sound", "damaged", "missing"]
    file: Source
    copy: Source | None
    aside: str = ""
    apart: tuple[str, ...] = ()
