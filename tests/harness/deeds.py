"""What a maker does, each as one write: the deeds that the faults are tried on."""

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
DOCUMENT = "all.json"
TEST = CardTest("single", KnotTest(10, 300.0, 250.0, 1.0), typed="10 knots")
OLD = Path(__file__).parents[1] / "storage" / "version_1.sql"


@dataclass(frozen=True)
class Deed:
    """`home`: the folder it is done in; `do`: what is done there, once everything is loaded."""

    name: str
    home: str
    do: Callable[[Workshop, OpenPiece | None, Path], object]


def _on(act: Callable[[Workshop, OpenPiece], object]) -> Callable[[Workshop, OpenPiece | None, Path], object]:
    def do(workshop: Workshop, opened: OpenPiece | None, _design: Path) -> object:
        assert opened is not None
        return act(workshop, opened)

    return do


def _copied(workshop: Workshop) -> None:
    words = workshop.keep_a_copy()
    if words:
        raise WorkshopError(words)


DEEDS = (
    Deed("confirm", "under way", _on(lambda shop, opened: shop.confirm(opened))),
    Deed("undo", "under way", _on(lambda shop, opened: shop.undo(opened))),
    Deed("measure", "under way", _on(lambda shop, opened: shop.measure(opened, "strand", 40.0, "40 mm"))),
    Deed("note", "under way", _on(lambda shop, opened: shop.note(opened, "the blue one " * 300))),
    Deed("jump", "under way", _on(lambda shop, opened: shop.jump(opened, 9))),
    Deed("finish", "made", _on(lambda shop, opened: shop.finish(opened, 100.0))),
    Deed("start", "under way", lambda shop, _work, design: shop.start(design)),
    Deed("card", "under way", lambda shop, _work, _design: shop.add_tests(CARD, TEST)),
    Deed("import", "under way", lambda shop, _work, design: shop.exports.take_in(design.with_name(DOCUMENT))),
    Deed("export", "under way", lambda shop, _work, _design: shop.exports.write(shop._store.path.with_name(DOCUMENT))),
    Deed("daily copy", "under way", lambda shop, _work, _design: _copied(shop)),
    Deed("first start", "empty", lambda shop, _work, design: shop.start(design)),
    Deed("migration", "old", lambda shop, _work, _design: shop.pieces()),
    Deed("open", "under way again", lambda shop, _work, _design: shop.pieces()),
)


def prepare(folder: Path) -> Path:
    """The homes that the deeds begin from, below that folder; the design."""
    design = folder / "short.yaml"
    design.write_text(DESIGN)
    for name, steps in (("under way", 5), ("made", None), ("under way again", 3)):
        workshop = open_at(folder / name)
        opened = workshop.start(design)
        workshop.jump(opened, opened.piece.total_steps if steps is None else steps)
        workshop.close()
        if name == "made":
            workshop.exports.write(folder / DOCUMENT)
            workshop.close()
    (folder / "empty").mkdir()
    (folder / "old").mkdir()
    with closing(sqlite3.connect(folder / "old" / DATABASE)) as db:
        db.executescript(OLD.read_text(encoding="utf-8"))
    return design


def marks(home: Path) -> dict[str, object]:
    """What is stored, apart from times and random names: read past the companion, a journal left over rolled back."""
    if not (home / DATABASE).exists() or not (home / DATABASE).stat().st_size:
        return {}
    copies = sorted((home / "backups").glob("companion-*.db"))
    for copy in copies:
        with closing(sqlite3.connect(copy)) as db:
            assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",), copy
    with closing(sqlite3.connect(home / DATABASE)) as db:
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert not db.execute("PRAGMA foreign_key_check").fetchall()
        tables = [name for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
        found: dict[str, object] = {"tables": tables, "version": db.execute("PRAGMA user_version").fetchone()}
        found["copies"] = len(copies)
        if (home / DOCUMENT).exists():  # whole, if it is there
            found["document"] = len(json.loads((home / DOCUMENT).read_text(encoding="utf-8"))["pieces"])
        if "event" in tables:
            found["events"] = db.execute("SELECT piece_id, seq, kind, data FROM event").fetchall()
            found["pieces"] = db.execute("SELECT name, steps_done, steps_total, state FROM piece").fetchall()
        if "card" in tables:
            found["cards"] = db.execute("SELECT name FROM card").fetchall()
            found["tests"] = db.execute("SELECT card_id, seq, kind, typed FROM card_test").fetchall()
        return found


def work_in(workshop: Workshop) -> OpenPiece | None:
    """The piece under way there, for the deeds that take one."""
    rows = workshop.pieces()
    return workshop.open(rows[0].name) if rows else None
