"""The day's copy: made while others write, whole or not at all, kept few; what goes wrong stops nobody."""

from __future__ import annotations

import sqlite3
import stat
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion.core.values.errors import NotADatabase, NotStored
from companion.core.values.retention import DAYS, MONTHS, WEEKS
from companion.storage import backups, database_copy
from companion.storage.backups import back_up_where_due, copies_of, events_in
from companion.storage.pieces import Store
from companion.workshop import Workshop, open_at

NOON = datetime(2026, 12, 1, 12, tzinfo=UTC)
DAY = timedelta(days=1)


@pytest.fixture
def database(data_folder: Path, skerry: Path) -> Path:
    """A file with one piece."""
    workshop = open_at(data_folder)
    workshop.start(skerry)
    workshop.close()
    return data_folder / "pieces.sqlite3"


def names(database: Path) -> list[str]:
    return [copy.name for copy in copies_of(database)]


def confirmed(database: Path, times: int) -> None:
    """So many events more."""
    workshop = open_at(database.parent)
    opened = workshop.open("skerry")
    for _ in range(times):
        opened = workshop.confirm(opened) if opened.piece.done < opened.plan.total_steps else workshop.undo(opened)
    workshop.close()


def written(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as db:
        return list(db.iterdump())


def test_a_copy_a_day_and_only_one(database: Path) -> None:
    copy = back_up_where_due(database, NOON)
    assert copy is not None
    assert copy.name == "tallycord-2026-12-01-120000.db"
    assert written(copy) == written(database)
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    assert stat.S_IMODE(copy.parent.stat().st_mode) == 0o700
    assert back_up_where_due(database, NOON + timedelta(hours=23)) is None
    assert back_up_where_due(database, NOON + DAY) is not None
    assert names(database) == ["tallycord-2026-12-01-120000.db", "tallycord-2026-12-02-120000.db"]
    assert sorted(path.name for path in copy.parent.iterdir()) == names(database)


def test_the_time_of_another_zone_is_the_same_moment(database: Path) -> None:
    from datetime import timezone

    east = NOON.astimezone(timezone(timedelta(hours=13)))
    assert back_up_where_due(database, east).name == "tallycord-2026-12-01-120000.db"


def test_after_a_year_few_are_left(database: Path) -> None:
    for day in range(0, 400):
        back_up_where_due(database, NOON + day * DAY)
    left = names(database)
    assert len(left) <= DAYS + WEEKS + MONTHS
    last = [f"tallycord-{NOON + day * DAY:%Y-%m-%d}-120000.db" for day in range(393, 400)]
    assert left[-DAYS:] == last
    assert len({name[:17] for name in left}) >= MONTHS


def test_other_files_in_the_folder_are_left_alone(database: Path) -> None:
    folder = database.parent / "backups"
    folder.mkdir()
    others = [
        "tallycord-2026-02-31-120000.db",
        "tallycord-2025-01-01-version-1.db",
        "mine.db",
        "tallycord-2026-01-01.db",
    ]
    for name in others:
        (folder / name).write_text("mine")
    for day in range(30):
        back_up_where_due(database, NOON + day * DAY)
    assert all((folder / name).read_text() == "mine" for name in others)


def test_a_clock_that_went_back_keeps_all_and_goes_on_copying(database: Path) -> None:
    back_up_where_due(database, NOON)
    past = datetime(1970, 1, 1, tzinfo=UTC)
    assert back_up_where_due(database, past) is None  # all of it is in the copy
    confirmed(database, backups.EVENTS_APART - 1)
    assert back_up_where_due(database, past) is None
    confirmed(database, 1)
    assert back_up_where_due(database, past) is not None
    assert back_up_where_due(database, past) is None
    confirmed(database, backups.EVENTS_APART)
    assert back_up_where_due(database, past) is not None  # in the same second, for all the clock knows
    kept = names(database)
    assert len(kept) == 2
    assert kept[-1] == "tallycord-2026-12-01-120000.db"
    assert events_in(database.parent / "backups" / kept[0]) == events_in(database)


def test_no_copy_of_a_damaged_file_pushes_out_a_good_one(database: Path) -> None:
    confirmed(database, 100)
    back_up_where_due(database, NOON)
    with database.open("rb+") as file:
        file.seek(3 * 4096)
        file.write(b"\xff" * 4096)
    with pytest.raises(NotADatabase, match="tallycord rescue"):
        back_up_where_due(database, NOON + DAY)
    assert names(database) == ["tallycord-2026-12-01-120000.db"]
    assert len(list((database.parent / "backups").iterdir())) == 1


def test_no_copy_of_what_is_not_ours_or_not_there(data_folder: Path) -> None:
    path = data_folder / "pieces.sqlite3"
    assert back_up_where_due(path, NOON) is None
    data_folder.mkdir()
    with closing(sqlite3.connect(path)) as db:
        db.execute("CREATE TABLE diary (day TEXT)")
    assert back_up_where_due(path, NOON) is None
    assert [file.name for file in data_folder.iterdir()] == ["pieces.sqlite3"]


def test_a_file_that_another_program_holds(database: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(database_copy, "BUSY_SECONDS", 0.01)
    with closing(sqlite3.connect(database, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        with pytest.raises(NotStored, match="Another program is using"):
            back_up_where_due(database, NOON)
    assert back_up_where_due(database, NOON) is not None


def test_what_a_power_cut_left_of_a_copy_goes_after_a_day(database: Path) -> None:
    folder = database.parent / "backups"
    folder.mkdir()
    left = folder / ".tallycord-2026-11-30-120000.db.77.new"
    left.write_text("half")
    import os

    os.utime(left, (NOON.timestamp() - 2 * 86400, NOON.timestamp() - 2 * 86400))
    back_up_where_due(database, NOON)
    assert not left.exists()


def test_a_command_that_writes_leaves_a_copy_and_one_that_reads_none(data_folder: Path, skerry: Path) -> None:
    shop = Workshop(Store(data_folder / "pieces.sqlite3", lambda: "1", lambda: NOON))
    shop.pieces()
    assert not shop.has_written
    shop.start(skerry)
    assert shop.has_written
    assert shop.keep_a_copy() == ""
    again = open_at(data_folder)
    again.pieces()
    assert not again.has_written
    assert names(data_folder / "pieces.sqlite3") == ["tallycord-2026-12-01-120000.db"]
