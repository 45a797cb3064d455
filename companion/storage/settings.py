"""The maker's settings: a small file beside the pieces, written whole."""

from __future__ import annotations

import json
import os
from pathlib import Path

from companion.core.values.errors import NotStored, WorkshopError
from companion.core.values.text import plain
from companion.storage.database import reason

SETTINGS = "settings.json"
MOST_BYTES = 10_000
LEAST_RISK, MOST_RISK = 0.0001, 0.5  # rarer than any maker can know of; oftener than not


def read_run_out_risk(folder: Path) -> float | None:
    """The chance of running out that the maker cuts for, None where nothing is set. Raises WorkshopError for a file
    that can't be read: a cut by another risk than the maker's would look like theirs."""
    path = folder / SETTINGS
    try:
        if not path.exists():
            return None
        text = path.read_bytes()[:MOST_BYTES].decode("utf-8")
        values = json.loads(text)
        risk = values["run_out_risk"]
        if isinstance(risk, bool) or not isinstance(risk, int | float) or not LEAST_RISK <= risk <= MOST_RISK:
            raise ValueError
    except PermissionError as error:
        raise WorkshopError(f"The settings can't be read: {plain(str(path))}: {reason(error)}.") from error
    except OSError:  # no such place, or none that can be reached: nothing was ever set there
        return None
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        place = plain(str(path))
        raise WorkshopError(
            f"The settings in {place} can't be understood. `companion risk 1%` writes them anew."
        ) from error
    return float(risk)


def write_run_out_risk(folder: Path, risk: float) -> None:
    """Keep it: the old file whole until the new one is. Raises NotStored."""
    path = folder / SETTINGS
    new = path.with_name(f".{SETTINGS}.{os.getpid()}.new")
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        with open(os.open(new, os.O_CREAT | os.O_WRONLY | os.O_TRUNC, 0o600), "w", encoding="utf-8") as file:
            json.dump({"run_out_risk": risk}, file)
            file.flush()
            os.fsync(file.fileno())
        os.replace(new, path)
    except OSError as error:
        new.unlink(missing_ok=True)
        raise NotStored(f"The settings can't be written: {plain(str(path))}: {reason(error)}.") from error
