"""Scenarios for fault injection: what a maker does, each of them one write to the disk."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.values.errors import WorkshopError
from companion.storage.folders import DATABASE
from companion.workshop import OpenPiece, Workshop, open_at

DESIGN = """\
format: 1
name: Short light
cord: {name: c, diameter: 1 mm, layers: 1, knots: {single: {take_up: 6 mm, length: 2 mm}}}
beads: {b: {length: 6 mm}}
strand: {layout: [{repeat: 12, of: [b, knot]}]}
"""
CARD = CordCard("silk", 0.45)
TEST = CardTest("single", KnotTest(300.0, 250.0, 10, 1.0), typed="10 knots")
EXPORT = "all.json"
OLDEST = Path(__file__).parents[1] / "storage" / "version_1.sql"
UNDER_WAY, MADE, EMPTY, OLD = "under way", "made", "empty", "old"


@dataclass(frozen=True)
class Scenario:
    """One act of a maker. `home`: which of the folders that `prepare` makes it begins from."""

    name: str
    home: str
    act: Callable[[Workshop, OpenPiece | None, Path], object]


def _on_piece(act: Callable[[Workshop, OpenPiece], object]) -> Callable[[Workshop, OpenPiece | None, Path], object]:
    def on_the_open_one(workshop: Workshop, opened: OpenPiece | None, _design: Path) -> object:
        assert opened is not None
        return act(workshop, opened)

    return on_the_open_one


def _beside_database(workshop: Workshop) -> Path:
    return workshop._store.path.with_name(EXPORT)


def _keep_a_copy(workshop: Workshop) -> None:
    words = workshop.keep_a_copy()
    if words:
        raise WorkshopError(words)


SCENARIOS = (
    Scenario("confirm", UNDER_WAY, _on_piece(lambda shop, opened: shop.confirm(opened))),
    Scenario("undo", UNDER_WAY, _on_piece(lambda shop, opened: shop.undo(opened))),
    Scenario("measure", UNDER_WAY, _on_piece(lambda shop, opened: shop.measure(opened, "strand", 40.0, "40 mm"))),
    Scenario("note", UNDER_WAY, _on_piece(lambda shop, opened: shop.note(opened, "the blue one " * 300))),
    Scenario("jump", UNDER_WAY, _on_piece(lambda shop, opened: shop.jump(opened, 9))),
    Scenario("finish", MADE, _on_piece(lambda shop, opened: shop.finish(opened, 100.0))),
    Scenario("start", UNDER_WAY, lambda shop, _opened, design: shop.start(design)),
    Scenario("card", UNDER_WAY, lambda shop, _opened, _design: shop.add_tests(CARD, TEST)),
    Scenario("import", UNDER_WAY, lambda shop, _opened, design: shop.exports.take_in(design.with_name(EXPORT))),
    Scenario("export", UNDER_WAY, lambda shop, _opened, _design: shop.exports.write(_beside_database(shop))),
    Scenario("daily copy", UNDER_WAY, lambda shop, _opened, _design: _keep_a_copy(shop)),
    Scenario("first start", EMPTY, lambda shop, _opened, design: shop.start(design)),
    Scenario("migration", OLD, lambda shop, _opened, _design: shop.pieces()),
    Scenario("open", "under way again", lambda shop, _opened, _design: shop.pieces()),
)


def prepare(folder: Path) -> Path:
    """Make the folders that the scenarios begin from, and the design, which is returned."""
    design = folder / "short.yaml"
    design.write_text(DESIGN)
    for name, steps in ((UNDER_WAY, 5), (MADE, None), ("under way again", 3)):
        workshop = open_at(folder / name)
        opened = workshop.start(design)
        workshop.jump(opened, opened.piece.total_steps if steps is None else steps)
        workshop.close()
        if name == MADE:
            workshop.exports.write(folder / EXPORT)
            workshop.close()
    (folder / EMPTY).mkdir()
    (folder / OLD).mkdir()
    with closing(sqlite3.connect(folder / OLD / DATABASE)) as db:
        db.executescript(OLDEST.read_text(encoding="utf-8"))
    return design


def snapshot(home: Path) -> dict[str, object]:
    """What is stored there, apart from times and random names.

    Read without Tallycord's own code; SQLite rolls back a journal that was left over. Raises AssertionError or
    sqlite3.Error where the database or one of its copies is damaged.
    """
    if not (home / DATABASE).exists() or not (home / DATABASE).stat().st_size:
        return {}
    copies = sorted((home / "backups").glob("tallycord-*.db"))
    for copy in copies:
        with closing(sqlite3.connect(copy)) as db:
            assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",), copy
    with closing(sqlite3.connect(home / DATABASE)) as db:
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert not db.execute("PRAGMA foreign_key_check").fetchall()
        tables = [name for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
        found: dict[str, object] = {"tables": tables, "version": db.execute("PRAGMA user_version").fetchone()}
        found["copies"] = len(copies)
        if (home / EXPORT).exists():  # whole, if it is there
            found["exported"] = len(json.loads((home / EXPORT).read_text(encoding="utf-8"))["pieces"])
        if "event" in tables:
            found["events"] = db.execute("SELECT piece_id, seq, kind, data FROM event").fetchall()
            found["pieces"] = db.execute("SELECT name, steps_done, steps_total, state FROM piece").fetchall()
        if "card" in tables:
            found["cards"] = db.execute("SELECT name FROM card").fetchall()
            found["tests"] = db.execute("SELECT card_id, seq, kind, typed FROM card_test").fetchall()
        return found


def first_piece(workshop: Workshop) -> OpenPiece | None:
    """The piece that is there, opened; None where there is none."""
    rows = workshop.pieces()
    return workshop.open(rows[0].name) if rows else None
