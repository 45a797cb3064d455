"""A copy of the file of pieces: made while others write, of one moment, whole or not at all."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from companion.storage import database_copy
from companion.storage.backups import events_in
from companion.storage.database_copy import copy_whole
from companion.workshop import open_at


@pytest.fixture
def database(data_folder: Path, skerry: Path) -> Path:
    """A file with one piece."""
    workshop = open_at(data_folder)
    workshop.start(skerry)
    workshop.close()
    return data_folder / "pieces.sqlite3"


class Meanwhile:
    """A source in which another window writes after each of the copy's first steps."""

    def __init__(self, source: sqlite3.Connection, database: Path, times: int) -> None:
        self.source, self.database, self.left, self.began = source, database, times, 0

    def _confirm(self) -> None:
        workshop = open_at(self.database.parent)
        opened = workshop.open("skerry")
        if opened.piece.done < opened.plan.total_steps:
            workshop.confirm(opened)
        else:
            workshop.undo(opened)
        workshop.close()

    def backup(self, target: sqlite3.Connection, *, progress: Any, pages: int = -1, sleep: float) -> None:
        def step(status: int, remaining: int, total: int) -> None:
            if self.left and remaining:
                self.left -= 1
                self._confirm()
            progress(status, remaining, total)

        self.began += 1
        self.source.backup(target, pages=pages, progress=step, sleep=sleep)


@pytest.mark.parametrize("times", [1, database_copy.MOST_RESTARTS, 1000])
def test_another_window_writes_meanwhile(
    database: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, times: int
) -> None:
    """The copy is of one moment, and is made in the end however fast the other one writes."""
    monkeypatch.setattr(database_copy, "PAGES_A_STEP", 4)
    with closing(sqlite3.connect(database)) as source, closing(sqlite3.connect(tmp_path / "copy.db")) as target:
        meanwhile = Meanwhile(source, database, times)
        database_copy._copy_pages(meanwhile, target)
        assert meanwhile.began == (1 if times < 1000 else 2)
        assert database_copy.is_sound(target)
    assert events_in(tmp_path / "copy.db") == events_in(database)


def test_a_copy_that_fails_half_way_leaves_nothing(database: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = database.parent / "backups" / "tallycord-2026-12-01-120000.db"

    def full(*given: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("companion.storage.files.os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        copy_whole(database, place)
    assert list(place.parent.iterdir()) == []
