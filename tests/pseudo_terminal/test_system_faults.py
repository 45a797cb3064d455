"""What the disk and the system do to an open piece, done to it for real, in a real terminal: each fault is said in one
clear line, the last step that was stored stands, and once the fault is over the same key works."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion.core.journal.events import Confirmed, Started
from companion.workshop import open_at
from tests.pseudo_terminal.terminal import Terminal

COMPANION = (sys.executable, "-m", "companion")
SMALL_DISK = (
    "unshare", "--user", "--map-root-user", "--mount",
    "sh", "-c", 'mount -t tmpfs -o size=2m tmpfs "$TALLYCORD_HOME" && exec "$@"', "sh",
)  # fmt: skip
# Root may write anywhere; without these two capabilities it is as everybody else.
NO_MASTER_KEY = """
import ctypes, os, sys
prctl = getattr(ctypes.CDLL(None), "prctl", None)
for capability in (1, 2) if prctl else ():
    prctl(24, capability, 0, 0, 0)
os.execv(sys.executable, [sys.executable, "-m", "companion", *sys.argv[1:]])
"""


class OnASmallDisk(Terminal):
    """With the folder for pieces on a disk of its own, of two megabytes."""

    PROGRAM = (*SMALL_DISK, *COMPANION)


class AsEverybody(Terminal):
    """Without the right to write where the permissions forbid it."""

    PROGRAM = (sys.executable, "-c", NO_MASTER_KEY)


def at_step_two(run: Terminal) -> Terminal:
    run.press(" ")
    run.until("step 2 of 33")
    return run


def refused(run: Terminal, words: str) -> None:
    """The key is answered with those words, and not shown as done; everything else can be used meanwhile."""
    run.press(" ")
    run.until(words)
    assert "step 2 of 33" in run.screen.text
    run.press("k")
    run.until("Esc close")
    run.leave("Esc close")
    assert "step 2 of 33" in run.screen.text


def goes_on(run: Terminal) -> None:
    run.press(" ")
    run.until("step 3 of 33")


def made(folder: Path) -> list[int]:
    """The steps that are stored as made, in the journal's order; the file is sound."""
    with sqlite3.connect(folder / "pieces.sqlite3") as db:
        assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    db.close()
    workshop = open_at(folder)
    entries = workshop.journal(workshop.open("skerry-bracelet"))
    workshop.close()
    return [entry.event.step for entry in entries if isinstance(entry.event, Confirmed)]


def test_a_full_disk(follow, data_folder: Path) -> None:
    data_folder.mkdir()
    try:
        subprocess.run([*SMALL_DISK, "true"], check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError) as error:
        pytest.skip(f"this machine lets no user make a small disk: {error}")
    run = at_step_two(follow(kind=OnASmallDisk))
    disk = Path(f"/proc/{run.process.pid}/root{data_folder}")  # as that process sees it
    filler = disk / "filler"
    with filler.open("wb", buffering=0) as file, suppress(OSError):
        while file.write(bytes(4096)):
            pass
    refused(run, "The disk is full: nothing was saved. Make room, then do it again.")
    filler.unlink()
    goes_on(run)
    copy = data_folder / "copy"
    shutil.copytree(disk, copy)
    assert made(copy) == [1, 2]


def test_a_file_that_another_program_holds(follow, data_folder: Path) -> None:
    run = at_step_two(follow())
    other = sqlite3.connect(data_folder / "pieces.sqlite3", isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")
    refused(run, "Another program is using the file of pieces: nothing was saved. Try again.")
    other.execute("ROLLBACK")
    other.close()
    goes_on(run)
    assert made(data_folder) == [1, 2]


def test_a_folder_that_may_not_be_written(follow, data_folder: Path) -> None:
    run = at_step_two(follow(kind=AsEverybody))
    data_folder.chmod(0o500)
    refused(run, "The file of pieces can't be written: nothing was saved. Check its permissions")
    data_folder.chmod(0o700)
    goes_on(run)
    assert made(data_folder) == [1, 2]


def test_a_folder_that_is_read_only_from_the_beginning(terminal, skerry: Path, data_folder: Path) -> None:
    """It takes no word of who has the piece in hand either: nothing is said of windows, and the piece can be read."""
    workshop = open_at(data_folder)
    workshop.confirm(workshop.start(skerry))
    workshop.close()
    data_folder.chmod(0o500)
    run = terminal("follow", skerry, kind=AsEverybody)
    run.until("Enter carry on")
    run.press("\r")
    run.until("step 2 of 33")
    assert "window" not in run.until("No copy of the pieces could be kept today.")
    refused(run, "The file of pieces can't be written: nothing was saved. Check its permissions")
    data_folder.chmod(0o700)
    goes_on(run)
    assert made(data_folder) == [1, 2]


def test_a_folder_that_vanishes(follow, data_folder: Path) -> None:
    run = at_step_two(follow())
    elsewhere = data_folder.with_name("elsewhere")
    data_folder.rename(elsewhere)
    refused(run, "The file of pieces was moved or replaced while Tallycord had it open: nothing was saved. Put it back")
    assert not os.path.lexists(data_folder)
    elsewhere.rename(data_folder)
    goes_on(run)
    assert made(data_folder) == [1, 2]


def test_a_clock_that_goes_backwards(skerry: Path, data_folder: Path) -> None:
    """The journal's order is that of its numbers, whatever the clock said; the pace leaves such a step out."""
    workshop = open_at(data_folder)
    now = datetime(2026, 12, 1, 18, 0, tzinfo=UTC)
    times = iter([now + timedelta(seconds=20 * step - (3600 if step > 6 else 0)) for step in range(14)])
    workshop._now = lambda: next(times)
    opened = workshop.start(skerry)
    for _ in range(12):
        opened = workshop.confirm(opened)
    events = [Started(opened.plan.total_steps), *(Confirmed(step) for step in range(1, 13))]
    assert [entry.event for entry in workshop.journal(opened)] == events
    assert made(data_folder) == list(range(1, 13))
    for piece in (opened, workshop.open(opened.name)):
        assert workshop.pace(piece).seconds_per_step == pytest.approx(20)
        assert piece.touched_at < now
    workshop.close()
