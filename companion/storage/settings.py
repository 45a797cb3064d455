"""The maker's settings, in the file of pieces. Older versions kept them in a small file beside it, which is still read
for settings that the file of pieces does not have."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path
from typing import Any

from msgspec.json import decode as from_json

from companion.core.values.errors import WorkshopError
from companion.core.values.settings import LEAST_RISK, MOST_RISK
from companion.core.values.text import plain
from companion.storage import rows
from companion.storage.database import Database, check_ours
from companion.storage.database_copy import read_connection
from companion.storage.sentences import errors_as_sentences, reason

RISK, DRAFT = "run_out_risk", "draft"
OLD_FILE = "settings.json"
MOST_BYTES = 10_000


def read_run_out_risk(database: Database) -> float | None:
    """The chance of running out that the maker cuts for; None if nothing is set. Raises WorkshopError if the settings
    cannot be read: a cut for another risk than hers would look like her own."""
    kept = _kept_risk(database.path)
    return _from_old_file(database.path.with_name(OLD_FILE)) if kept is None else _risk(kept, database.path)


def write_run_out_risk(database: Database, risk: float) -> None:
    """Store it. Raises NotStored."""
    with database.writing() as db:
        rows.set_setting(db, RISK, risk)


def read_settings(database: Database) -> dict[str, Any]:
    """All that the maker has set, by name; {} if nothing. Raises WorkshopError."""
    try:
        if not database.path.exists():
            return {}
    except OSError:
        return {}
    with errors_as_sentences(database.path), closing(read_connection(database.path)) as db:
        check_ours(db, database.path)
        try:
            return rows.settings(db)
        except ValueError as error:
            raise _not_understood(database.path) from error


def write_setting(database: Database, name: str, value: Any) -> None:
    """Store one of them. Raises NotStored."""
    with database.writing() as db:
        rows.set_setting(db, name, value)


def read_draft(database: Database) -> Any:
    """The design that was being made, as a plain value; None if there is none. Raises WorkshopError."""
    return _kept(database.path, DRAFT)


def write_draft(database: Database, draft: Any) -> None:
    """Store it. Raises NotStored."""
    with database.writing() as db:
        rows.set_setting(db, DRAFT, draft)


def _kept_risk(path: Path) -> Any:
    return _kept(path, RISK)


def _kept(path: Path, name: str) -> Any:
    """What the file of pieces says. It is only read: planning never changes a file, even one with older tables."""
    try:
        if not path.exists():
            return None
    except OSError:  # the same is said of the old file
        return None
    with errors_as_sentences(path), closing(read_connection(path)) as db:
        check_ours(db, path)
        try:
            return rows.setting(db, name)
        except ValueError as error:
            raise _not_understood(path) from error


def _from_old_file(path: Path) -> float | None:
    try:
        if not path.exists():
            return None
        with path.open("rb") as file:
            text = file.read(MOST_BYTES).decode("utf-8")
        return _risk(from_json(text)[RISK], path)
    except PermissionError as error:
        raise WorkshopError(f"The settings can't be read: {plain(str(path))}: {reason(error)}.") from error
    except OSError:  # no such place, or none that can be reached: nothing was ever set there
        return None
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        raise _not_understood(path) from error


def _risk(value: Any, path: Path) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not LEAST_RISK <= value <= MOST_RISK:
        raise _not_understood(path)
    return float(value)


def _not_understood(path: Path) -> WorkshopError:
    return WorkshopError(
        f"The settings in {plain(str(path))} can't be understood. `tallycord risk 1%` writes them anew."
    )
