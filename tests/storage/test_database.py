"""Opening the file of pieces: beside other programs, in folders that refuse, and where the file is not ours."""

from __future__ import annotations

import os
import sqlite3
import stat
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

import pytest

from companion.core.values.errors import NotADatabase, NotStored
from companion.storage import database
from companion.storage.database import open_database
from companion.workshop import open_at


def now() -> datetime:
    return datetime(2026, 12, 1, 12, tzinfo=UTC)


REPO = Path(__file__).parents[2]


class Meanwhile:
    """A connection during whose second question another program opens the same file for the first time."""

    def __init__(self, path: Path) -> None:
        self.path, self.db, self.asked = path, sqlite3.connect(path, isolation_level=None), 0

    def execute(self, statement: str) -> sqlite3.Cursor:
        self.asked += "PRAGMA" in statement
        if self.asked == 2:
            with suppress(NotStored):  # it has to wait; that is as good
                open_database(self.path, now, busy_seconds=0.01).close()
        return self.db.execute(statement)


def test_two_programs_making_the_file_at_once(tmp_path: Path) -> None:
    meanwhile = Meanwhile(tmp_path / "pieces.sqlite3")
    database.check_ours(meanwhile, meanwhile.path)
    assert meanwhile.asked >= 2
    open_database(meanwhile.path, now).close()  # nothing is held any more


def test_the_file_is_private_from_its_first_moment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path, modes = tmp_path / "pieces.sqlite3", []
    connect = sqlite3.connect

    def look(*given, **named):
        modes.append(stat.S_IMODE(path.stat().st_mode))
        return connect(*given, **named)

    monkeypatch.setattr(sqlite3, "connect", look)
    before = os.umask(0)
    try:
        open_database(path, now).close()
    finally:
        os.umask(before)
    assert modes == [0o600]


def test_a_foreign_file_with_a_high_version_is_called_foreign(data_folder: Path) -> None:
    data_folder.mkdir()
    db = sqlite3.connect(data_folder / "pieces.sqlite3")
    db.execute("CREATE TABLE diary (day TEXT)")
    db.execute("PRAGMA user_version = 99")
    db.close()
    before = (data_folder / "pieces.sqlite3").read_bytes()
    with pytest.raises(NotADatabase, match="not a file of pieces"):
        open_at(data_folder).pieces()
    assert (data_folder / "pieces.sqlite3").read_bytes() == before


def test_a_file_moved_away_under_an_open_app(data_folder: Path, skerry: Path) -> None:
    """What is written to it would be lost with it: refused, and said."""
    workshop = open_at(data_folder)
    opened = workshop.start(skerry)
    path, away = data_folder / "pieces.sqlite3", data_folder / "away"
    path.rename(away)
    with pytest.raises(NotStored, match="moved or replaced"):
        workshop.confirm(opened)
    away.rename(path)
    assert workshop.confirm(opened).revision == 2


def test_a_folder_in_the_place_of_the_file(data_folder: Path, skerry: Path) -> None:
    (data_folder / "pieces.sqlite3").mkdir(parents=True)
    for act in (lambda workshop: workshop.pieces(), lambda workshop: workshop.start(skerry)):
        with pytest.raises(NotStored):
            act(open_at(data_folder))


def test_a_name_too_long_for_any_file_is_said(tmp_path: Path, skerry: Path) -> None:
    workshop = open_at(tmp_path / ("x" * 400))
    with pytest.raises(NotStored, match="file name too long"):
        workshop.pieces()
    with pytest.raises(NotStored, match="file name too long"):
        workshop.start(skerry)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that any user can reach, as pytest's own is not."""
    with tempfile.TemporaryDirectory() as name:
        Path(name).chmod(0o755)
        yield Path(name)


READ_ONLY = """
import os, sys
from pathlib import Path
from companion.core.values.errors import NotStored
from companion.workshop import open_at
folder, design = Path(sys.argv[1]) / "home", Path(sys.argv[2])
shop = open_at(folder)
name = shop.confirm(shop.start(design)).name  # all that is imported is imported now: nobody may not read it
shop.close()
(folder / "pieces.sqlite3").chmod(0o444)
folder.chmod(0o555)
if os.geteuid() == 0:  # root may write anywhere: go on as somebody who may not
    os.seteuid(65534)
if not os.access(folder, os.R_OK | os.X_OK, effective_ids=True):
    print("out of reach")
    raise SystemExit
shop = open_at(folder)
print(len(shop.pieces()))
print(shop.open(name).piece.done)
try:
    shop.confirm(shop.open(name))
except NotStored as error:
    print(error)
try:
    open_at(folder / "below").start(design)
except NotStored as error:
    print(error)
"""


def test_a_read_only_folder_can_be_read_and_says_that_it_can_not_be_written(open_folder: Path, skerry: Path) -> None:
    command = [sys.executable, "-c", READ_ONLY, str(open_folder), str(skerry)]
    run = subprocess.run(command, capture_output=True, text=True, cwd=REPO)
    if run.stdout == "out of reach\n":
        pytest.skip("the folder for temporary files is closed to other users, and root may write anywhere")
    assert run.returncode == 0, run.stderr
    count, done, not_written, not_made = run.stdout.splitlines()
    assert (count, done) == ("1", "1")
    assert "can't be written: nothing was saved" in not_written
    assert "can't be made" in not_made
    (open_folder / "home").chmod(0o700)
    assert open_at(open_folder / "home").pieces()[0].steps_done == 1
