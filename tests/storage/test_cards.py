"""Cord cards are kept whole and only added to."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Lengths
from companion.workshop import open_at

VERSION_1 = (Path(__file__).parent / "version_1.sql").read_text(encoding="utf-8")
BOTH = CardTest("double", Row(300.0, 284.0, 1, 1.5875), Lengths(9.0, 1, 1.5875), "30 cm; 284 mm; 9 mm")
ROW = CardTest("single", Row(200.0, 180.0, 3), None, "200 mm; 180 mm")
TOUCHING = CardTest("single", None, Lengths(9.0, 5), "9 mm")
SKERRY = CordCard("skerry linen", 0.6, 2, "waxed linen", "needle")


def test_what_is_stored_comes_back(data_folder: Path) -> None:
    open_at(data_folder).add_tests(SKERRY, BOTH, ROW)
    workshop = open_at(data_folder)
    workshop.add_tests(SKERRY, TOUCHING)
    card = open_at(data_folder).card("Skerry Linen")
    assert card == CordCard("skerry linen", 0.6, 2, "waxed linen", "needle", (BOTH, ROW, TOUCHING))
    assert workshop.card("lizard linen") is None


def test_nothing_is_made_by_looking(data_folder: Path) -> None:
    assert open_at(data_folder).cards() == ()
    assert not data_folder.exists()


@pytest.mark.parametrize("line", ["UPDATE card_test SET knots = 2", "DELETE FROM card_test", "DELETE FROM card"])
def test_a_card_is_only_ever_added_to(data_folder: Path, line: str) -> None:
    open_at(data_folder).add_tests(SKERRY, ROW)
    db = sqlite3.connect(data_folder / "pieces.sqlite3")
    with pytest.raises(sqlite3.DatabaseError, match="only ever added"):
        db.execute(line)
    db.close()


def test_a_file_without_cards_takes_them(data_folder: Path) -> None:
    data_folder.mkdir()
    db = sqlite3.connect(data_folder / "pieces.sqlite3")
    db.executescript(VERSION_1)
    events = db.execute("SELECT * FROM event").fetchall()
    db.close()
    workshop = open_at(data_folder)
    assert workshop.cards() == ()
    assert workshop.add_tests(SKERRY, ROW).tests == (ROW,)
    assert sqlite3.connect(data_folder / "pieces.sqlite3").execute("SELECT * FROM event").fetchall() == events


def test_a_test_that_fails_leaves_no_card(data_folder: Path) -> None:
    workshop = open_at(data_folder)
    with pytest.raises(AssertionError):
        workshop.add_tests(SKERRY, ROW, CardTest("single"))
    assert open_at(data_folder).cards() == ()


def test_a_test_that_is_taken_back_stays_in_the_file_and_no_longer_counts(data_folder: Path) -> None:
    workshop = open_at(data_folder)
    card = workshop.add_tests(SKERRY, BOTH, ROW, TOUCHING)
    assert workshop.withdraw_test(card).tests == (BOTH, ROW)
    assert workshop.withdraw_test(card).tests == (BOTH,)
    assert workshop.add_tests(SKERRY, TOUCHING).tests == (BOTH, TOUCHING)
    for _ in range(4):
        workshop.withdraw_test(card)
    assert open_at(data_folder).card("skerry linen").tests == ()
    assert workshop.add_tests(SKERRY, ROW).tests == (ROW,)
    kept = sqlite3.connect(data_folder / "pieces.sqlite3").execute("SELECT kind FROM card_test ORDER BY seq").fetchall()
    assert [kind for (kind,) in kept] == [
        "double", "single", "single", "withdrawn", "withdrawn", "single", "withdrawn", "withdrawn", "single",
    ]  # fmt: skip


def test_what_finished_pieces_taught_is_asked_for_once_however_many_there_are(data_folder: Path, skerry: Path) -> None:
    workshop = open_at(data_folder)
    workshop.add_tests(SKERRY, ROW)
    counts = []
    for _ in range(2):
        for _ in range(3):
            opened = workshop.start(skerry)
            workshop.finish(workshop.jump(opened, opened.piece.total_steps))
        seen: list[str] = []
        workshop._store.database.open().set_trace_callback(seen.append)
        assert [card.name for card in workshop.cards()] == ["skerry linen"]
        workshop._store.database.open().set_trace_callback(None)
        counts.append(len(seen))
    assert counts[0] == counts[1]
