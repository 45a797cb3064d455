"""A file of pieces from an older version opens whole; a change that fails half-way leaves it as it was."""

from __future__ import annotations

import signal
import sqlite3
import stat
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from companion.core.journal.event_document import KINDS, NAMES
from companion.core.journal.events import Measured, Noted
from companion.core.values.errors import NotADatabase, NotStored
from companion.storage import database, migrations
from companion.storage.database import open_database
from companion.storage.migrations import CHANGES
from companion.workshop import open_at

REPO = Path(__file__).parents[2]
NAME = "portland-bill-key-cord"
NOON = datetime(2026, 12, 24, 12, tzinfo=UTC)
VERSIONS = range(1, len(CHANGES) + 1)


def file_of_version(version: int, folder: Path) -> Path:
    """A file of pieces as that version left it, with events of every kind there was."""
    folder.mkdir()
    path = folder / "pieces.sqlite3"
    db = sqlite3.connect(path)
    db.executescript((Path(__file__).parent / f"version_{version}.sql").read_text(encoding="utf-8"))
    db.close()
    return path


@pytest.fixture
def old_file(data_folder: Path) -> Path:
    """A file of pieces as version 1 left it: one piece."""
    return file_of_version(1, data_folder)


@pytest.fixture(params=VERSIONS)
def any_file(request: pytest.FixtureRequest, data_folder: Path) -> Path:
    """A file of pieces of each version there has been, this one's too."""
    return file_of_version(request.param, data_folder)


def written(path: Path) -> list[str]:
    """All that a file holds, as SQL."""
    with closing(sqlite3.connect(path)) as db:
        versions = [f"{db.execute(f'PRAGMA {name}').fetchone()}" for name in ("user_version", "application_id")]
        return [*versions, *db.iterdump()]


def copies(path: Path) -> list[Path]:
    return sorted((path.parent / "backups").glob("*"))


def state_of(path: Path) -> tuple:
    db = sqlite3.connect(path)
    (version,) = db.execute("PRAGMA user_version").fetchone()
    tables = [name for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
    events = db.execute("SELECT * FROM event ORDER BY piece_id, seq").fetchall()
    (whole,) = db.execute("PRAGMA integrity_check").fetchone()
    db.close()
    return version, tables, events, whole


LATER_KINDS = {
    "recounted",
    "changed",
    "joined",
    "act undone",
    "act redone",
    "taken up",
    "renamed",
    "taken out",
    "put back",
}  # events that came after the fixture was written


def test_a_piece_of_version_1_is_whole(old_file: Path) -> None:
    workshop = open_at(old_file.parent)
    (row,) = workshop.pieces()
    assert (row.name, row.steps_done, row.steps_total, row.state) == (NAME, 7, 7, "finished")
    opened = workshop.open(NAME)
    assert opened.piece.cut_mm(0) == 900.0
    assert opened.piece.readings == (Measured("free", 4, 310.0, "31 cm"),)
    assert opened.piece.notes == (Noted(4, "knots a little looser tonight"),)
    assert opened.piece.finished_mm == 148.0
    assert opened.plan.total_steps == 7
    assert {NAMES[type(entry.event)] for entry in workshop.journal(opened)} == set(KINDS) - LATER_KINDS
    assert workshop.undo(opened).piece.state == "under way"
    assert sqlite3.connect(old_file).execute("PRAGMA user_version").fetchone() == (len(CHANGES),)


def with_change(monkeypatch: pytest.MonkeyPatch, change: Callable[[sqlite3.Connection], None]) -> None:
    for module in (database, migrations):
        monkeypatch.setattr(module, "CHANGES", (*CHANGES, change))


def test_a_change_and_its_record_go_together(old_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    open_database(old_file, lambda: NOON).close()
    _, tables, events, _ = state_of(old_file)
    with_change(monkeypatch, lambda db: db.execute("CREATE TABLE shelf (cord TEXT)"))
    open_database(old_file, lambda: NOON).close()
    assert state_of(old_file) == (len(CHANGES) + 1, sorted([*tables, "shelf"]), events, "ok")


def test_a_change_that_fails_leaves_the_file_as_it_was(old_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(db: sqlite3.Connection) -> None:
        db.execute("CREATE TABLE shelf (cord TEXT)")
        db.execute("INSERT INTO no_such_table VALUES (1)")

    before = state_of(old_file)
    with_change(monkeypatch, fails)
    with pytest.raises(NotStored):
        open_database(old_file, lambda: NOON)
    assert state_of(old_file) == before


def test_killed_half_way_through_a_change(any_file: Path) -> None:
    """More is written than the cache holds, so half of it is in the file when the kill comes."""
    before, rows, size = state_of(any_file), written(any_file), any_file.stat().st_size
    code = (
        "import os, signal, sys\n"
        "from datetime import UTC, datetime\n"
        "from pathlib import Path\n"
        "from companion.storage import database, migrations\n"
        "def half_way(db):\n"
        "    db.execute('PRAGMA cache_size = 5')\n"
        "    db.execute('CREATE TABLE shelf (cord TEXT)')\n"
        "    for _ in range(500):\n"
        "        db.execute('INSERT INTO shelf VALUES (?)', ('x' * 1000,))\n"
        "    os.kill(os.getpid(), signal.SIGKILL)\n"
        "database.CHANGES = migrations.CHANGES = (*migrations.CHANGES, half_way)\n"
        "database.open_database(Path(sys.argv[1]), lambda: datetime.now(UTC))\n"
    )
    run = subprocess.run([sys.executable, "-c", code, str(any_file)], cwd=REPO, capture_output=True)
    assert run.returncode == -signal.SIGKILL, run.stderr
    assert any_file.stat().st_size > size
    assert state_of(any_file) == before
    (copy,) = copies(any_file)
    assert written(any_file) == written(copy) == rows
    assert open_at(any_file.parent).pieces()[0].steps_done > 0  # and it can be brought up to date after all


@pytest.mark.parametrize("version", VERSIONS)
def test_what_each_version_kept_is_there_afterwards(version: int, data_folder: Path) -> None:
    path = file_of_version(version, data_folder)
    rows = [line for line in written(path) if line.startswith("INSERT")]
    assert {kind for line in rows for kind in KINDS if f"'{kind}'" in line} >= set(KINDS) - LATER_KINDS
    workshop = open_at(data_folder)
    for row in workshop.pieces():
        opened = workshop.open(row.name)
        assert (opened.piece.done, opened.piece.total_steps, opened.piece.state) == (
            row.steps_done,
            row.steps_total,
            row.state,
        )
        assert opened.plan.total_steps == opened.piece.total_steps
    workshop.close()
    assert [line for line in written(path) if line.startswith("INSERT")] == rows


@pytest.mark.parametrize("version", VERSIONS[:-1])
def test_a_copy_is_kept_before_a_change(version: int, data_folder: Path) -> None:
    path = file_of_version(version, data_folder)
    before = written(path)
    open_database(path, lambda: NOON).close()
    (copy,) = copies(path)
    assert copy.name == f"tallycord-2026-12-24-version-{version}.db"
    assert written(copy) == before
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    assert stat.S_IMODE(copy.parent.stat().st_mode) == 0o700


def test_a_new_file_and_one_of_this_version_need_no_copy(data_folder: Path) -> None:
    open_database(data_folder / "pieces.sqlite3", lambda: NOON).close()
    open_database(data_folder / "pieces.sqlite3", lambda: NOON).close()
    assert copies(data_folder / "pieces.sqlite3") == []


def test_without_a_copy_nothing_is_changed(old_file: Path) -> None:
    (old_file.parent / "backups").write_text("in the way")
    before = old_file.read_bytes()
    with pytest.raises(NotStored, match=r"it could not be copied first. Nothing was saved: file exists"):
        open_database(old_file, lambda: NOON)
    assert old_file.read_bytes() == before


def test_a_damaged_file_is_neither_copied_nor_changed(old_file: Path) -> None:
    with old_file.open("rb+") as file:
        file.seek(2 * 4096)
        file.write(b"\xff" * 4096)
    before = old_file.read_bytes()
    with pytest.raises(NotADatabase, match="`tallycord rescue` tells what can be saved"):
        open_database(old_file, lambda: NOON)
    assert old_file.read_bytes() == before
    assert copies(old_file) == []
