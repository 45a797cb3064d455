"""The folder of a sample piece, and what is left of one whose window was ended before it could remove it."""

from __future__ import annotations

import os
import re
import shutil
import stat
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path

PREFIX = "tallycord-sample-"
OLD_SECONDS = 24 * 60 * 60.0
_NAME = re.compile(rf"{PREFIX}(\d+)-\w+")


def sample_folder() -> tempfile.TemporaryDirectory[str]:
    """A new folder, which says whose it is: the number of this process is in its name."""
    clear_leftovers()
    return tempfile.TemporaryDirectory(prefix=f"{PREFIX}{os.getpid()}-")


def clear_leftovers() -> None:
    """Remove the folders of samples whose process is gone, or, where that can't be asked, that are older than a day.
    Only what is surely ours: a folder of this user that nobody else may look into. Whatever can't be removed stays."""
    with suppress(OSError):
        for place in Path(tempfile.gettempdir()).glob(f"{PREFIX}*"):
            with suppress(OSError):
                if _is_left_over(place):
                    shutil.rmtree(place)


def _is_left_over(place: Path) -> bool:
    named, found = _NAME.fullmatch(place.name), place.lstat()
    if not named or not stat.S_ISDIR(found.st_mode):
        return False
    if hasattr(os, "getuid") and (found.st_uid != os.getuid() or found.st_mode & 0o077):
        return False
    if sys.platform == "win32":  # asking after a process would end it there
        return time.time() - found.st_mtime > OLD_SECONDS
    return not _is_running(int(named[1]))


def _is_running(process: int) -> bool:
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:  # it is another user's
        return True
    return True
