"""A broken file of pieces: what reads is saved, the rest comes from the newest copy, and nothing is thrown away."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.draft.draft import BeadDraft
from companion.core.values.errors import NotADatabase, WorkshopError
from companion.storage.backups import back_up_where_due
from companion.storage.database import Database
from companion.storage.design.bead_box import put_beads, read_beads
from companion.storage.migrations import CHANGES
from companion.storage.pieces import Store
from companion.workshop import Workshop, open_at

NOON = datetime(2026, 12, 1, 12, tzinfo=UTC)
PAGE = 4096


@pytest.fixture
def database(data_folder: Path, patterns: Path) -> Path:
    """Eleven pieces with some steps each, and a card."""
    workshop = open_at(data_folder)
    for design in sorted(patterns.glob("*.yaml")):
        opened = workshop.start(design)
        for _ in range(6):
            opened = workshop.confirm(opened)
    workshop.add_tests(CordCard("linen", 0.6), CardTest("single", KnotTest(200.0, 190.0, 1)))
    workshop.close()
    return data_folder / "pieces.sqlite3"


def workshop_at(database: Path) -> Workshop:
    numbers = iter(range(1000))
    return Workshop(Store(database, lambda: f"{next(numbers):032x}", lambda: NOON))


def spoil(database: Path, *pages: int) -> bytes:
    """Overwrite pages (from 0), as a failing disk would; the file as it then is."""
    with database.open("rb+") as file:
        for page in pages:
            file.seek(page * PAGE)
            file.write(random.Random(page).randbytes(PAGE))
    return database.read_bytes()


def events(database: Path) -> dict[str, int]:
    with closing(sqlite3.connect(database)) as db:
        return dict(db.execute("SELECT name, count(*) FROM event JOIN piece ON id = piece_id GROUP BY id"))


def pages_of(database: Path, table: str) -> list[int]:
    with closing(sqlite3.connect(database)) as db:
        (root,) = db.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)).fetchone()
    return [root - 1]


def test_a_file_without_fault_is_left_alone(database: Path) -> None:
    before = database.read_bytes()
    assert workshop_at(database).look_for_rescue().state == "sound"
    assert workshop_at(database).rescue().state == "sound"
    assert database.read_bytes() == before
    assert sorted(path.name for path in database.parent.iterdir()) == ["pieces.sqlite3"]


@pytest.mark.parametrize("seed", range(12))
def test_with_a_copy_nothing_is_lost_wherever_it_is_broken(database: Path, seed: int) -> None:
    """One to five pages are noise, the first among them at times."""
    whole = events(database)
    back_up_where_due(database, NOON)
    count = database.stat().st_size // PAGE
    chance = random.Random(seed)
    broken = spoil(database, *chance.sample(range(count), chance.randint(1, 5)))
    shop = workshop_at(database)
    found = shop.look_for_rescue()
    assert found.state == "damaged"
    assert database.read_bytes() == broken  # looking changes nothing
    done = shop.rescue()
    assert done.aside == "pieces-damaged-2026-12-01-120000.sqlite3"
    assert (database.parent / done.aside).read_bytes() == broken
    assert events(database) == whole
    assert [card.name for card in open_at(database.parent).cards()] == ["linen"]
    assert shop.look_for_rescue().state == "sound"
    left = {path.name for path in database.parent.iterdir()}
    assert left == {"pieces.sqlite3", "backups", done.aside}


def test_the_bead_box_is_saved_as_well(database: Path) -> None:
    pink = BeadDraft("", name="Pink glass", length="8 mm", in_hand="40")
    put_beads(Database(database, lambda: NOON), (pink,), NOON)
    back_up_where_due(database, NOON)
    spoil(database, 0)
    assert workshop_at(database).rescue().state == "damaged"
    assert read_beads(Database(database, lambda: NOON)) == (pink,)


@pytest.mark.parametrize("seed", range(12))
def test_without_a_copy_every_piece_that_is_saved_is_one_that_was(database: Path, seed: int) -> None:
    before = {row.name: open_at(database.parent).open(row.name) for row in open_at(database.parent).pieces()}
    journals = {name: open_at(database.parent).journal(opened) for name, opened in before.items()}
    count = database.stat().st_size // PAGE
    spoil(database, *random.Random(100 + seed).sample(range(1, count), 2))
    shop = workshop_at(database)
    done = shop.rescue()
    after = open_at(database.parent)
    saved = after.pieces() if done.aside else ()
    assert len(saved) == done.file.pieces
    for row in saved:
        opened = after.open(row.name)
        journal = after.journal(opened)
        assert journal == journals[row.name][: len(journal)]
        assert opened.plan == before[row.name].plan
    assert sum(row.steps_done for row in saved) <= sum(opened.piece.done for opened in before.values())
    if len(saved) < 12:
        assert done.file.lost != () or not done.aside


def test_a_journal_is_read_up_to_its_first_fault(database: Path) -> None:
    with closing(sqlite3.connect(database)) as db, db:
        db.execute("DROP TRIGGER event_never_updated")
        db.execute("UPDATE event SET data = '{\"step\":' WHERE piece_id = 1 AND seq = 5")
        db.execute("UPDATE event SET data = '{\"step\":5}' WHERE piece_id = 2 AND seq = 4")
    found = workshop_at(database).look_for_rescue()
    first, second = (row.name for row in sorted(open_at(database.parent).pieces(), key=lambda row: row.id)[:2])
    assert found.file.lost == (
        f"{first}: its journal reads up to event 4 only",
        f"{second}: its journal reads up to event 3 only",
    )
    workshop_at(database).rescue()
    left = events(database)
    assert (left[first], left[second]) == (4, 3)
    assert open_at(database.parent).open(first).piece.done == 3


def test_newer_work_in_the_broken_file_goes_before_the_copy(database: Path) -> None:
    back_up_where_due(database, NOON)
    shop = open_at(database.parent)
    name = max(shop.pieces(), key=lambda row: row.steps_total).name
    opened = shop.confirm(shop.open(name))
    shop.close()
    with closing(sqlite3.connect(database)) as db, db:
        db.execute("UPDATE piece SET plan = 'gone' WHERE name <> ?", (name,))
    done = workshop_at(database).rescue()
    assert len(done.file.lost) == 11
    after = open_at(database.parent)
    assert after.open(name).piece == opened.piece
    assert len(after.pieces()) == 12


def test_the_newest_copy_that_is_good_is_taken(database: Path) -> None:
    for day in range(3):
        back_up_where_due(database, NOON + day * timedelta(days=1))
    spoil(database.parent / "backups" / "tallycord-2026-12-03-120000.db", 3)
    spoil(database, 0)
    assert workshop_at(database).look_for_rescue().copy.name == "tallycord-2026-12-02-120000.db"


def test_a_file_that_is_gone_comes_back_from_its_copy(database: Path) -> None:
    whole = events(database)
    back_up_where_due(database, NOON)
    database.unlink()
    found = workshop_at(database).look_for_rescue()
    assert (found.state, found.copy.pieces) == ("missing", 12)
    assert not database.exists()
    workshop_at(database).rescue()
    assert events(database) == whole


def test_noise_in_its_place_and_no_copy_is_left_alone(data_folder: Path) -> None:
    data_folder.mkdir()
    (data_folder / "pieces.sqlite3").write_bytes(b"no database at all" * 1000)
    done = workshop_at(data_folder / "pieces.sqlite3").rescue()
    assert (done.state, done.aside, done.file.pieces) == ("damaged", "", 0)
    assert [path.name for path in data_folder.iterdir()] == ["pieces.sqlite3"]


@pytest.mark.parametrize("newer", [True, False])
def test_what_is_another_programs_or_newer_is_refused(database: Path, newer: bool) -> None:
    with closing(sqlite3.connect(database)) as db:
        db.execute(f"PRAGMA user_version = {len(CHANGES) + 1}" if newer else "PRAGMA application_id = 77")
    before = database.read_bytes()
    for act in (workshop_at(database).look_for_rescue, workshop_at(database).rescue):
        with pytest.raises(NotADatabase, match="newer version" if newer else "not a file of pieces"):
            act()
    assert database.read_bytes() == before


def test_a_rescue_that_fails_leaves_the_broken_file(database: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    back_up_where_due(database, NOON)
    broken = spoil(database, 0)

    def fails(*given: object) -> None:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr("companion.storage.rescue.merge_card", fails)
    with pytest.raises(WorkshopError, match="disk is full"):
        workshop_at(database).rescue()
    assert database.read_bytes() == broken
    assert sorted(path.name for path in database.parent.iterdir()) == ["backups", "pieces.sqlite3"]


def test_a_rollback_journal_goes_aside_with_its_file(database: Path) -> None:
    """It would undo pages of the new file, were it left."""
    back_up_where_due(database, NOON)
    spoil(database, 0)
    journal = database.with_name("pieces.sqlite3-journal")
    journal.write_bytes(b"half a journal")
    done = workshop_at(database).rescue()
    assert not journal.exists()
    assert (database.parent / f"{done.aside}-journal").read_bytes() == b"half a journal"
