"""A file of pieces from an older companion opens whole; a change that fails half-way leaves it as it was."""

from __future__ import annotations

import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from companion.core.event_document import KINDS, NAMES
from companion.core.events import Measured, Noted
from companion.core.troubles import NotStored
from companion.storage import database, migrations
from companion.storage.database import open_database
from companion.storage.migrations import CHANGES
from companion.workshop import open_at

REPO = Path(__file__).parents[2]
VERSION_1 = (Path(__file__).parent / "version_1.sql").read_text(encoding="utf-8")
NAME = "portland-bill-key-cord"


@pytest.fixture
def old_file(data_folder: Path) -> Path:
    """A file of pieces as version 1 left it: one piece, with events of every kind there was."""
    data_folder.mkdir()
    path = data_folder / "pieces.sqlite3"
    db = sqlite3.connect(path)
    db.executescript(VERSION_1)
    db.close()
    return path


def state_of(path: Path) -> tuple:
    db = sqlite3.connect(path)
    (version,) = db.execute("PRAGMA user_version").fetchone()
    tables = [name for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
    events = db.execute("SELECT * FROM event ORDER BY piece_id, seq").fetchall()
    (whole,) = db.execute("PRAGMA integrity_check").fetchone()
    db.close()
    return version, tables, events, whole


LATER_KINDS = {"recounted", "changed", "joined"}  # events that came after the fixture was written


def test_a_piece_of_version_1_is_whole(old_file: Path) -> None:
    workshop = open_at(old_file.parent)
    (row,) = workshop.pieces()
    assert (row.name, row.steps_done, row.steps_total, row.state) == (NAME, 7, 7, "finished")
    work = workshop.open(NAME)
    assert work.piece.cut_mm(0) == 900.0
    assert work.piece.readings == (Measured("free", 4, 310.0, "31 cm"),)
    assert work.piece.notes == (Noted(4, "knots a little looser tonight"),)
    assert work.piece.finished_mm == 148.0
    assert work.plan.total_steps == 7
    assert {NAMES[type(entry.event)] for entry in workshop.journal(work)} == set(KINDS) - LATER_KINDS
    assert workshop.undo(work).piece.state == "under way"
    assert sqlite3.connect(old_file).execute("PRAGMA user_version").fetchone() == (len(CHANGES),)


def with_change(monkeypatch: pytest.MonkeyPatch, change: Callable[[sqlite3.Connection], None]) -> None:
    for module in (database, migrations):
        monkeypatch.setattr(module, "CHANGES", (*CHANGES, change))


def test_a_change_and_its_record_go_together(old_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    open_database(old_file).close()
    _, tables, events, _ = state_of(old_file)
    with_change(monkeypatch, lambda db: db.execute("CREATE TABLE shelf (cord TEXT)"))
    open_database(old_file).close()
    assert state_of(old_file) == (len(CHANGES) + 1, sorted([*tables, "shelf"]), events, "ok")


def test_a_change_that_fails_leaves_the_file_as_it_was(old_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(db: sqlite3.Connection) -> None:
        db.execute("CREATE TABLE shelf (cord TEXT)")
        db.execute("INSERT INTO no_such_table VALUES (1)")

    before = state_of(old_file)
    with_change(monkeypatch, fails)
    with pytest.raises(NotStored):
        open_database(old_file)
    assert state_of(old_file) == before


def test_killed_half_way_through_a_change(old_file: Path) -> None:
    """More is written than the cache holds, so half of it is in the file when the kill comes."""
    open_database(old_file).close()
    before, size = state_of(old_file), old_file.stat().st_size
    code = (
        "import os, signal, sys\n"
        "from pathlib import Path\n"
        "from companion.storage import database, migrations\n"
        "def half_way(db):\n"
        "    db.execute('PRAGMA cache_size = 5')\n"
        "    db.execute('CREATE TABLE shelf (cord TEXT)')\n"
        "    for _ in range(500):\n"
        "        db.execute('INSERT INTO shelf VALUES (?)', ('x' * 1000,))\n"
        "    os.kill(os.getpid(), signal.SIGKILL)\n"
        "database.CHANGES = migrations.CHANGES = (*migrations.CHANGES, half_way)\n"
        "database.open_database(Path(sys.argv[1]))\n"
    )
    run = subprocess.run([sys.executable, "-c", code, str(old_file)], cwd=REPO, capture_output=True)
    assert run.returncode == -signal.SIGKILL, run.stderr
    assert old_file.stat().st_size > size
    assert open_at(old_file.parent).open(NAME).piece.done == 7
    assert state_of(old_file) == before
