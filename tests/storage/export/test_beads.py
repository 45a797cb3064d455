"""The bead box in an export: it comes along, an older export has none, twice is once, and the newer of two stands."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft, Draft
from companion.core.values.errors import WorkshopError
from companion.workshop import Workshop, open_at
from tests.storage.design.json_schema import accepts

PINK = BeadDraft("P", name="Pink glass", length="8 mm", hole="1.2 mm", colour="pink", in_hand="40")
DAISY = BeadDraft("D", name="Silver daisy", length="2 mm", shape="daisy")


class Clock:
    """Later at every look."""

    def __init__(self) -> None:
        self.at = datetime(2026, 12, 1, 18, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(minutes=1)
        return self.at


@pytest.fixture
def both(tmp_path: Path) -> tuple[Workshop, Workshop]:
    """Two machines, on which it is the same time."""
    here, there, clock = open_at(tmp_path / "here"), open_at(tmp_path / "there"), Clock()
    here._now = there._now = clock
    return here, there


def typed(workshop: Workshop, *beads: BeadDraft) -> None:
    """A design with those beads is half made."""
    workshop.drafts.keep(Draft(beads=beads))


def carried(source: Workshop, to: Workshop, place: Path) -> dict[str, str]:
    """Take over what the other one has; what came of each bead."""
    source.exports.write(place, over=True)
    return dict(to.exports.take_in(place).beads)


def names(workshop: Workshop) -> list[str]:
    return [bead.name for bead in workshop.drafts.beads()]


def all_rows(workshop: Workshop) -> list[tuple]:
    with closing(sqlite3.connect(workshop._store.path)) as db:
        return [db.execute(f"SELECT * FROM {table}").fetchall() for table in ("bead", "bead_out")]


def test_it_comes_along_whole_and_twice_is_once(both, tmp_path) -> None:
    here, there = both
    typed(here, PINK, DAISY)
    assert carried(here, there, tmp_path / "x.json") == {"Pink glass 8 mm": "added", "Silver daisy 2 mm": "added"}
    assert there.drafts.beads() == here.drafts.beads() != ()
    before = all_rows(there)
    assert set(carried(here, there, tmp_path / "x.json").values()) == {"same"}
    assert all_rows(there) == before


def test_the_newer_stands_on_both_sides(both, tmp_path) -> None:
    here, there = both
    typed(here, PINK)
    carried(here, there, tmp_path / "x.json")
    typed(there, replace(PINK, in_hand="12"))
    assert carried(here, there, tmp_path / "x.json") == {"Pink glass 8 mm": "behind"}
    assert there.drafts.beads()[0].in_hand == "12"
    assert carried(there, here, tmp_path / "y.json") == {"Pink glass 8 mm": "continued"}
    assert here.drafts.beads() == there.drafts.beads()


def test_what_was_taken_out_is_out_there_too_until_it_is_described_again(both, tmp_path) -> None:
    here, there = both
    typed(here, PINK, DAISY)
    carried(here, there, tmp_path / "old.json")
    here.drafts.take_out_of_box(here.drafts.beads()[1])
    assert carried(here, there, tmp_path / "new.json") == {"Pink glass 8 mm": "continued", "Silver daisy 2 mm": "same"}
    assert names(there) == names(here) == ["Silver daisy"]
    there.exports.take_in(tmp_path / "old.json")  # an older one brings nothing back
    assert names(there) == ["Silver daisy"]
    typed(there, PINK)
    carried(there, here, tmp_path / "again.json")
    assert names(here) == names(there) == ["Pink glass", "Silver daisy"]
    third = open_at(tmp_path / "third")
    carried(here, third, tmp_path / "x.json")
    third.exports.take_in(tmp_path / "new.json")
    assert set(names(third)) == {"Pink glass", "Silver daisy"}


def test_an_export_without_a_box_is_taken_in_and_changes_nothing_in_it(both, tmp_path) -> None:
    here, there = both
    place = tmp_path / "x.json"
    here.exports.write(place)
    assert "beads" not in json.loads(place.read_text(encoding="utf-8"))
    typed(there, PINK)
    there.exports.take_in(place)
    assert names(there) == ["Pink glass"]


def test_the_schema_knows_the_box(both) -> None:
    here, _ = both
    typed(here, PINK)
    document = json.loads("\n".join(here.exports.lines()))
    assert [bead["name"] for bead in document["beads"]] == ["Pink glass"]
    schema = here.exports.schema()
    assert accepts(schema, schema, document)


@pytest.mark.parametrize(
    ("key", "value"),
    [("name", ""), ("length", ""), ("name", "a\x1b[2Jb"), ("colour", "two\nlines"), ("taken_out", 1), ("at", "noon")],
)
def test_what_can_not_be_a_bead_is_refused_whole(both, tmp_path, key, value) -> None:
    here, there = both
    typed(here, PINK)
    document = json.loads("\n".join(here.exports.lines()))
    document["beads"][0][key] = value
    place = tmp_path / "x.json"
    place.write_text(json.dumps(document), encoding="utf-8")
    with pytest.raises(WorkshopError, match="beads, number 1"):
        there.exports.take_in(place)
    assert names(there) == []
