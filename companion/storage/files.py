"""Files written completely or not at all: a new file gets its name once all of it is on disk, and the old one stays
until then."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


@contextmanager
def written_whole(place: Path, over: bool = True) -> Iterator[Path]:
    """An empty file beside that place, which only its owner may read, to be written to. When the block ends it is put
    on disk and takes the name; if the block raises, it is removed.

    Raises OSError; FileExistsError if the name is taken and `over` is False.
    """
    new = place.with_name(f".{place.name}.{os.getpid()}.new")
    try:
        new.unlink(missing_ok=True)  # left by an earlier try that could not even take it away
        os.close(os.open(new, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        yield new
        with new.open("rb+") as file:
            os.fsync(file.fileno())
        _give_name(new, place, over)
        with suppress(OSError):  # where folders can't be opened, that is the system's own affair
            sync_folder(place.parent)
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)


def _give_name(new: Path, place: Path, over: bool) -> None:
    if not over:
        try:
            os.link(new, place)  # unlike a rename, this takes no name that somebody has taken meanwhile
            return
        except FileExistsError:
            raise
        except OSError:  # a disk without links
            if os.path.lexists(place):
                raise
    os.replace(new, place)


def sync_folder(folder: Path) -> None:
    """Put the names in that folder on disk, as they are now. Raises OSError."""
    number = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(number)
    finally:
        os.close(number)


def make_folder(folder: Path) -> None:
    """Make that folder and those above it if they do not exist; only the owner may look into it. Raises OSError."""
    new = [place for place in (folder, *folder.parents) if not place.exists()]
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    for place in new:  # a folder whose name is not on disk is lost with all that is in it
        with suppress(OSError):
            sync_folder(place.parent)
