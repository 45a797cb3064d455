"""The bead box: beads once typed are there for the next design, in the file of pieces, and nothing in it is lost."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft
from companion.storage.database import Database
from companion.storage.design.bead_box import put_beads, read_beads, take_out_bead
from tests.storage.test_migrations import file_of_version

NOON = datetime(2026, 12, 24, 12, tzinfo=UTC)
PINK = BeadDraft("", name="Pink glass", length="8 mm", hole="1.2 mm", colour="pink", in_hand="40")
SPACER = BeadDraft("", name="Silver spacer", length="3 mm", diameter="5 mm", shape="daisy")


@pytest.fixture
def box(data_folder: Path) -> Database:
    data_folder.mkdir()
    return Database(data_folder / "pieces.sqlite3", lambda: NOON)


def how_many_rows(box: Database) -> int:
    with closing(sqlite3.connect(box.path)) as db:
        return int(db.execute("SELECT count(*) FROM bead").fetchone()[0])


def test_nothing_yet(box: Database) -> None:
    assert read_beads(box) == ()


def test_the_one_typed_last_comes_first(box: Database) -> None:
    put_beads(box, (PINK, SPACER), NOON)
    assert read_beads(box) == (SPACER, PINK)
    put_beads(box, (replace(PINK, colour="dusty pink", in_hand="31"),), NOON)
    assert read_beads(box) == (replace(PINK, colour="dusty pink", in_hand="31"), SPACER)
    assert how_many_rows(box) == 3  # what was there before is there still


def test_the_same_again_is_no_other_bead(box: Database) -> None:
    put_beads(box, (PINK, SPACER), NOON)
    put_beads(box, (replace(PINK, letter="P", key="pink", name=" Pink glass "), SPACER), NOON)
    assert how_many_rows(box) == 2


def test_a_count_is_not_forgotten_by_not_saying_it(box: Database) -> None:
    put_beads(box, (PINK,), NOON)
    put_beads(box, (replace(PINK, in_hand="", hole="1 mm"),), NOON)
    assert read_beads(box)[0].in_hand == "40"


def test_another_length_is_another_bead(box: Database) -> None:
    put_beads(box, (PINK, replace(PINK, length="6 mm")), NOON)
    assert len(read_beads(box)) == 2


def test_half_a_bead_is_not_put_in(box: Database) -> None:
    put_beads(box, (replace(PINK, length=""), replace(PINK, name="")), NOON)
    assert read_beads(box) == ()


@pytest.mark.parametrize("bad", ["'); DROP TABLE bead; --", "\x1b[2J\u202egnp", "[@click=app.quit]x[/]", "珠🫧" * 200])
def test_any_name_is_only_a_name(box: Database, bad: str) -> None:
    put_beads(box, (replace(PINK, name=bad, colour=bad), SPACER), NOON)
    spacer, other = read_beads(box)
    assert spacer == SPACER
    assert other.name
    assert "\x1b" not in other.name + other.colour
    assert "\u202e" not in other.name + other.colour


def test_nothing_is_ever_written_over(box: Database) -> None:
    put_beads(box, (PINK,), NOON)
    box.close()
    with closing(sqlite3.connect(box.path)) as db:
        for statement in ("UPDATE bead SET name = 'x'", "DELETE FROM bead"):
            with pytest.raises(sqlite3.DatabaseError, match="only ever added to"):
                db.execute(statement)


@pytest.mark.parametrize("version", [1, 2, 3])
def test_a_file_of_an_older_shape_has_an_empty_box_and_takes_beads(version: int, data_folder: Path) -> None:
    box = Database(file_of_version(version, data_folder), lambda: NOON)
    before = box.path.read_bytes()
    assert read_beads(box) == ()
    assert box.path.read_bytes() == before  # looking into it changes nothing
    put_beads(box, (PINK,), NOON)
    assert read_beads(box) == (PINK,)


def test_the_box_of_this_version(data_folder: Path) -> None:
    glass, daisy = read_beads(Database(file_of_version(4, data_folder), lambda: NOON))
    assert (glass.name, glass.in_hand, daisy.shape) == ("Sea-glass round", "31", "daisy")


def test_a_bead_can_be_taken_out_and_nothing_is_lost_of_it(box: Database) -> None:
    put_beads(box, (PINK, SPACER), NOON)
    take_out_bead(box, PINK, NOON)
    assert read_beads(box) == (SPACER,)
    assert how_many_rows(box) == 2  # what was there is there still
    take_out_bead(box, PINK, NOON)  # out is out
    with closing(sqlite3.connect(box.path)) as db:
        assert db.execute("SELECT count(*) FROM bead_out").fetchone() == (1,)
        with pytest.raises(sqlite3.IntegrityError, match="only ever added to"):
            db.execute("DELETE FROM bead_out")


def test_described_again_it_is_back(box: Database) -> None:
    put_beads(box, (PINK, SPACER), NOON)
    take_out_bead(box, PINK, NOON)
    put_beads(box, (SPACER,), NOON)  # others bring nothing back
    assert read_beads(box) == (SPACER,)
    put_beads(box, (replace(PINK, in_hand=""),), NOON)
    assert read_beads(box) == (replace(PINK, in_hand=""), SPACER)  # how many there were is not known any more
