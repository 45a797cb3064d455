"""A file of pieces with bytes that nobody wrote: whatever is asked of it is answered, or refused in words."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.values.errors import NotADatabase, WorkshopError
from companion.core.values.text import plain
from companion.workshop import open_at

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


def everything(home: Path) -> list[str]:
    """All that the screens and commands ask of a store, and a step: what was refused, in words."""
    said = []
    with closing(open_at(home)) as workshop:
        try:
            names = [row.name for row in workshop.pieces()]
            workshop.cards()
        except WorkshopError as error:
            return [str(error)]
        for name in names:
            try:
                opened = workshop.open(name)
                workshop.outlook(opened)
                list(workshop.journal_with_plans(opened))
                workshop.confirm(opened)
            except WorkshopError as error:
                said.append(str(error))
    return said


def rescued(home: Path) -> tuple[str, bool]:
    """What `rescue` found, and whether all is well after it. Whatever it says of what is lost is in clean words."""
    with closing(open_at(home)) as workshop:
        found = workshop.look_for_rescue()
        assert workshop.look_for_rescue() == found  # looking changes nothing
        done = workshop.rescue()
    assert all(lost == plain(lost) != "" for lost in done.file.lost)
    well = done.state == "sound" or done.aside != ""
    if well:
        with closing(open_at(home)) as workshop:
            assert workshop.look_for_rescue().state == "sound"
            assert len(workshop.pieces()) == done.file.pieces
            assert len(workshop.cards()) == done.file.cards
        assert everything(home) == []
    return done.state, well


SAID = (
    "is damaged or not a file of pieces. Nothing was changed: `tallycord rescue` tells what can be saved.",
    "is not a file of pieces. Nothing was changed: move it away to start afresh.",
    "Nothing was changed: use the newer version.",
    "The journal of this piece can't be read: ",
    "The plan kept with this piece can't be read: ",
    "taught can't be read.",
)


@pytest.mark.parametrize("first", range(0, 60, 20))
def test_damage_is_told_in_words(sound: bytes, tmp_path: Path, first: int) -> None:
    said, states = [], []
    for seed in range(first, first + 20):
        home = tmp_path / str(seed)
        home.mkdir()
        (home / FILE).write_bytes(damaged(sound, random.Random(seed)))
        said += everything(home)
        try:
            states.append(rescued(home))
        except NotADatabase as error:  # the mark that says whose file it is is what was hit
            said.append(str(error))
    assert [words for words in said if not any(known in words for known in SAID) or "\x1b" in words] == []
    assert len(said) >= 5
    assert {("sound", True), ("damaged", True), ("damaged", False)} >= set(states) >= {("damaged", True)}


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
    (said,) = set(everything(tmp_path))
    assert says in said
