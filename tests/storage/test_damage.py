"""A file of pieces with bytes that nobody wrote: whatever is asked of it is answered, or refused in words."""

from __future__ import annotations

import random
import sqlite3
from pathlib import Path

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.values.errors import NotPossible, WorkshopError
from companion.workshop import Workshop, open_at

FILE = "pieces.sqlite3"


@pytest.fixture(scope="module")
def sound(tmp_path_factory) -> bytes:
    """Two pieces with some events, and a cord card."""
    home = tmp_path_factory.mktemp("sound")
    workshop = open_at(home)
    patterns = Path(__file__).parents[2] / "patterns"
    workshop.add_tests(CordCard("silk", 0.45, 2), CardTest("single", KnotTest(250.0, 238.0, 2)))
    for design in ("skerry-bracelet", "fastnet-cuff"):
        opened = workshop.start(patterns / f"{design}.yaml")
        for _ in range(9):
            opened = workshop.confirm(opened)
        workshop.measure(opened, "strand", 60.0, "60 mm")
    workshop.close()
    return (home / FILE).read_bytes()


def damaged(data: bytes, draw: random.Random) -> bytes:
    changed = bytearray(data)
    kind = draw.random()
    if kind < 0.15:
        return bytes(changed[: draw.randrange(len(changed))])
    if kind < 0.4:
        at, size = draw.randrange(len(changed)), draw.choice([16, 512, 4096])
        changed[at : at + size] = bytes(len(changed[at : at + size]))
    else:
        for _ in range(draw.choice([1, 3, 20, 200])):
            changed[draw.randrange(len(changed))] = draw.randrange(256)
    return bytes(changed)


def opened(workshop: Workshop) -> None:
    """Every piece and card, read."""
    for row in workshop.pieces():
        workshop.open(row.name)
    workshop.cards()


def everything(workshop: Workshop) -> None:
    """All that the screens and commands ask of a store, and a step."""
    for row in workshop.pieces():
        try:
            opened = workshop.open(row.name)
            workshop.outlook(opened)
            list(workshop.journal_with_plans(opened))
            workshop.confirm(opened)
        except (WorkshopError, NotPossible):
            continue
    workshop.cards()


@pytest.mark.parametrize("seed", range(60))
def test_damage_is_told_in_words(sound, tmp_path, seed) -> None:
    draw = random.Random(seed)
    (tmp_path / FILE).write_bytes(damaged(sound, draw))
    for deed in (everything, lambda w: w.look_for_rescue(), lambda w: w.rescue(), everything):
        workshop = open_at(tmp_path)
        try:
            deed(workshop)
        except WorkshopError:
            continue  # in words
        finally:
            workshop.close()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ("UPDATE piece SET started_at = 'yesterday'", "is damaged"),
        ("UPDATE piece SET steps_done = 'some'", "is damaged"),
        ("UPDATE piece SET name = x'80' WHERE id = 1", "is damaged"),
        ("DROP TRIGGER event_never_updated; UPDATE event SET data = '{\"step\": \"one\"}' WHERE kind = 'confirmed'",
         "The journal of this piece can't be read"),
        ("DROP TRIGGER event_never_updated; UPDATE event SET at = 5", "The journal of this piece can't be read"),
        ("UPDATE piece SET plan = '[]'", "The plan kept with this piece can't be read"),
        ("DROP TRIGGER card_never_updated; UPDATE card SET diameter_mm = 'thick'", "is damaged"),
        ("DROP TRIGGER card_test_never_updated; UPDATE card_test SET kind = 'bow'", "is damaged"),
    ],
)  # fmt: skip
def test_what_nobody_wrote_is_refused(sound, tmp_path, change, says) -> None:
    (tmp_path / FILE).write_bytes(sound)
    db = sqlite3.connect(tmp_path / FILE)
    db.executescript(change)
    db.close()
    workshop = open_at(tmp_path)
    with pytest.raises(WorkshopError, match=says):
        opened(workshop)
    workshop.close()
