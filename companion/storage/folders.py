"""Where things are: the user's data folder, looked up when a command starts, the designs that come with Tallycord, and
which file a design is."""

from __future__ import annotations

import os
from pathlib import Path

DATABASE = "pieces.sqlite3"
DESIGNS = "designs"  # the folder of the maker's own, beside the file of pieces


def data_folder() -> Path:
    """The folder for pieces: TALLYCORD_HOME where it is set, else the system's own place for user data."""
    chosen = os.environ.get("TALLYCORD_HOME")
    if chosen:
        return Path(chosen)
    from platformdirs import user_data_path

    return user_data_path("tallycord", appauthor=False)


def shipped_designs() -> tuple[Path, ...]:
    """The designs that come with Tallycord, by name: in the installed package, or beside it in a checkout."""
    package = Path(__file__).parents[1]
    for folder in (package / "patterns", package.parent / "patterns"):
        if folder.is_dir():
            return tuple(sorted(folder.glob("*.yaml")))
    return ()


def full_path(path: Path) -> str:
    """The full path with links followed, as text that can be stored. A file's name need not be valid text."""
    try:
        full = os.path.realpath(path)
    except OSError:  # the folder it is relative to is gone
        full = str(path)
    return full.encode("utf-8", "backslashreplace").decode()


def content_of(path: Path) -> bytes | None:
    """What a plain file no larger than a design may be holds; None for anything else."""
    from companion.core.values.design import MOST_BYTES

    try:
        if not path.is_file() or path.stat().st_size > MOST_BYTES:
            return None
        return path.read_bytes()
    except (OSError, ValueError):
        return None


def digest_of(path: Path) -> str:
    """SHA-256 of a plain file no larger than a design may be, hex; "" for anything else."""
    content = content_of(path)
    if content is None:
        return ""
    from hashlib import sha256  # it takes a while to load, and is needed to tell a file that was moved

    return sha256(content).hexdigest()
