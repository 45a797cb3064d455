"""Where things lie: the user's data folder, asked for when a command starts, and the designs that are shipped."""

from __future__ import annotations

import os
from pathlib import Path

DATABASE = "pieces.sqlite3"


def data_folder() -> Path:
    """The folder for pieces: COMPANION_HOME where it is set, else the system's own place for user data."""
    chosen = os.environ.get("COMPANION_HOME")
    if chosen:
        return Path(chosen)
    from platformdirs import user_data_path

    return user_data_path("knotting-companion", appauthor=False)


def shipped_designs() -> tuple[Path, ...]:
    """The designs that come with the companion, by name: in the installed package, or beside it in a checkout."""
    package = Path(__file__).parents[1]
    for folder in (package / "patterns", package.parent / "patterns"):
        if folder.is_dir():
            return tuple(sorted(folder.glob("*.yaml")))
    return ()
