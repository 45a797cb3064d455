"""All pieces and cards as one document, and back: everything equal, twice is once, newer work stays, all or nothing."""

from __future__ import annotations

import json
import os
import sqlite3
import stat
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.journal.event_document import event_from_document
from companion.core.values.errors import NotStored, WorkshopError
from companion.workshop import Workshop, open_at
from tests.harness.import_fuzz import valid_export

STORED = Path(__file__).parents[1]
LINEN = CordCard("skerry linen", 0.6, 1, "waxed linen")


@pytest.fixture
def here(data_folder: Path) -> Workshop:
    """Pieces with every kind of event, and a card."""
    data_folder.mkdir()
    with closing(sqlite3.connect(data_folder / "pieces.sqlite3")) as db:
        db.executescript((STORED / "version_2.sql").read_text(encoding="utf-8"))
    workshop = open_at(data_folder)
    workshop.pieces()  # brought up to date
    return workshop


@pytest.fixture
def there(tmp_path: Path) -> Workshop:
    """Another machine, with nothing yet."""
    return open_at(tmp_path / "there")


def exported(workshop: Workshop, place: Path) -> Path:
    workshop.exports.write(place, over=True)
    return place


def document(workshop: Workshop) -> dict[str, Any]:
    return json.loads("\n".join(workshop.exports.lines()))


def rows(workshop: Workshop) -> dict[str, list[tuple]]:
    """All that is kept; of an event what its data mean, for a newer tallycord may write more of it."""
    with closing(sqlite3.connect(workshop._store.path)) as db:
        tables = ("piece", "event", "card", "card_test")
        found = {table: db.execute(f"SELECT * FROM {table} ORDER BY 1, 2").fetchall() for table in tables}
    found["event"] = [(*row, event_from_document(kind, json.loads(data))) for *row, kind, data in found["event"]]
    return found


def test_restored_into_an_empty_home_everything_is_equal(
    here: Workshop, there: Workshop, tmp_path: Path, patterns: Path
) -> None:
    for design in sorted(patterns.glob("*.yaml")):
        opened = here.confirm(here.start(design))
        here.measure(opened, "free", 300.0, "30 cm")
    merged = there.exports.take_in(exported(here, tmp_path / "all.json"))
    assert set(merged.pieces.values()) | set(merged.cards.values()) == {"added"}
    assert rows(there) == rows(here)
    assert there.pieces() == here.pieces()
    for row in here.pieces():
        one, other = here.open(row.name), there.open(row.name)
        assert one == other
        assert here.outlook(one) == there.outlook(other)
        assert here.journal(one) == there.journal(other)
    assert there.cards() == here.cards()
    assert document(there)["pieces"] == document(here)["pieces"]


def test_twice_is_once(here: Workshop, there: Workshop, tmp_path: Path) -> None:
    place = exported(here, tmp_path / "all.json")
    there.exports.take_in(place)
    before = rows(there)
    merged = there.exports.take_in(place)
    assert set(merged.pieces.values()) | set(merged.cards.values()) == {"same"}
    assert rows(there) == before
    assert set(here.exports.take_in(place).pieces.values()) == {"same"}


def test_what_has_gone_on_there_is_continued_here(here: Workshop, there: Workshop, tmp_path: Path) -> None:
    there.exports.take_in(exported(here, tmp_path / "all.json"))
    name = "godrevy-key-cord"
    opened = there.measure(there.confirm(there.open(name)), "strand", 70.0, "7 cm")
    there.add_tests(LINEN, CardTest("single", KnotTest(100.0, 90.0, 1), None, "100 mm; 90 mm"))
    back = exported(there, tmp_path / "back.json")
    held = here.open(name)
    merged = here.exports.take_in(back)
    assert (merged.pieces[name], merged.cards["skerry linen"]) == ("continued", "continued")
    assert rows(here) == rows(there)
    assert here.refresh(held).piece == opened.piece  # an open window sees it at once
    assert here.open(name).piece == opened.piece


def test_newer_work_is_never_written_over(here: Workshop, there: Workshop, tmp_path: Path) -> None:
    old = exported(here, tmp_path / "old.json")
    here.confirm(here.open("godrevy-key-cord"))
    here.add_tests(LINEN, CardTest("single", KnotTest(100.0, 90.0, 1), None, "100 mm; 90 mm"))
    before = rows(here)
    merged = here.exports.take_in(old)
    assert (merged.pieces["godrevy-key-cord"], merged.cards["skerry linen"]) == ("behind", "behind")
    assert rows(here) == before


def test_what_has_gone_on_differently_is_left_as_it_is(here: Workshop, there: Workshop, tmp_path: Path) -> None:
    there.exports.take_in(exported(here, tmp_path / "all.json"))
    there.note(there.open("godrevy-key-cord"), "there")
    there.add_tests(LINEN, CardTest("single", KnotTest(100.0, 91.0, 1)))
    here.note(here.open("godrevy-key-cord"), "here")
    here.add_tests(LINEN, CardTest("single", KnotTest(100.0, 90.0, 1)))
    before = rows(here)
    merged = here.exports.take_in(exported(there, tmp_path / "all.json"))
    assert merged.pieces == {"godrevy-key-cord": "apart", "godrevy-key-cord-2": "same"}
    assert merged.cards == {"skerry linen": "apart"}
    assert rows(here) == before


def test_a_card_of_the_same_name_and_another_cord_is_left_alone(
    here: Workshop, there: Workshop, tmp_path: Path
) -> None:
    there.add_tests(CordCard("Skerry Linen", 0.8), CardTest("single", KnotTest(100.0, 90.0, 1)))
    before = rows(here)
    merged = here.exports.take_in(exported(there, tmp_path / "all.json"))
    assert merged.cards == {"skerry linen": "apart"}
    assert rows(here) == before


def test_two_pieces_of_one_name_are_two_pieces(here: Workshop, there: Workshop, tmp_path: Path, skerry: Path) -> None:
    here.start(skerry)
    there.confirm(there.start(skerry))
    merged = here.exports.take_in(exported(there, tmp_path / "all.json"))
    assert merged.pieces == {"skerry-bracelet-2": "added"}
    assert merged.renamed == {"skerry-bracelet-2": "skerry-bracelet"}
    assert here.open("skerry-bracelet-2").piece.done == 1
    assert here.open("skerry-bracelet").piece.done == 0
    assert here.exports.take_in(exported(there, tmp_path / "all.json")).pieces == {"skerry-bracelet-2": "same"}


def test_any_layout_of_the_document_is_the_same_one(here: Workshop, there: Workshop, tmp_path: Path) -> None:
    """Indented, sorted by key, with a byte-order mark, in letters beyond ASCII: as other programs may write it."""
    place = tmp_path / "all.json"
    text = json.dumps(document(here), indent=3, sort_keys=True, ensure_ascii=False)
    place.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert set(there.exports.take_in(place).pieces.values()) == {"added"}
    assert rows(there) == rows(here)


def test_an_export_from_before_the_program_had_its_name(here: Workshop, there: Workshop, tmp_path: Path) -> None:
    place = exported(here, tmp_path / "all.json")
    place.write_text(
        place.read_text(encoding="utf-8").replace("tallycord export", "companion export"), encoding="utf-8"
    )
    assert set(there.exports.take_in(place).pieces.values()) == {"added"}
    assert document(there)["pieces"] == document(here)["pieces"]


def test_nothing_exported_is_nothing_taken(here: Workshop, there: Workshop, tmp_path: Path) -> None:
    place = exported(there, tmp_path / "none.json")
    assert not there._store.path.exists()
    assert here.exports.take_in(place).pieces == {}


# -- files ------------------------------------------------------------------------------------------------------------


def test_the_file_is_private_and_never_written_over_unasked(here: Workshop, tmp_path: Path) -> None:
    place = tmp_path / "all.json"
    before = os.umask(0)
    try:
        here.exports.write(place)
    finally:
        os.umask(before)
    assert stat.S_IMODE(place.stat().st_mode) == 0o600
    first = place.read_bytes()
    with pytest.raises(NotStored, match="is there already: nothing was saved"):
        here.exports.write(place)
    assert place.read_bytes() == first
    here.exports.write(place, over=True)
    assert [path.name for path in tmp_path.iterdir() if path.is_file()] == ["all.json"]


def test_a_dangling_link_is_there_too(here: Workshop, tmp_path: Path) -> None:
    (tmp_path / "link.json").symlink_to(tmp_path / "elsewhere.json")
    with pytest.raises(NotStored, match="is there already"):
        here.exports.write(tmp_path / "link.json")
    assert not (tmp_path / "elsewhere.json").exists()


def test_an_export_that_fails_half_way_leaves_no_file(
    here: Workshop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "usb"
    folder.mkdir()

    def full(*given: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("companion.storage.export.writing.os.fsync", full)
    with pytest.raises(NotStored, match=r"can't be written: no space left on device. Nothing was saved"):
        here.exports.write(folder / "all.json")
    assert list(folder.iterdir()) == []


def test_a_piece_that_can_not_be_read_is_named(here: Workshop, tmp_path: Path) -> None:
    with closing(sqlite3.connect(here._store.path)) as db, db:
        db.execute("UPDATE piece SET plan = '{}' WHERE name = 'godrevy-key-cord-2'")
    with pytest.raises(WorkshopError, match="The piece godrevy-key-cord-2 can't be read whole"):
        here.exports.write(tmp_path / "all.json")
    assert not (tmp_path / "all.json").exists()


def test_what_fails_half_way_through_storing_leaves_nothing(
    here: Workshop, there: Workshop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from companion.storage import rows as stored

    there.pieces()
    add, done = stored.add_piece, []

    def second_fails(*given: Any) -> None:
        done.append(add(*given))
        if len(done) == 2:
            raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(stored, "add_piece", second_fails)
    with pytest.raises(NotStored, match="The disk is full: nothing was saved"):
        there.exports.take_in(exported(here, tmp_path / "all.json"))
    assert rows(there) == {"piece": [], "event": [], "card": [], "card_test": []}


# -- what is refused --------------------------------------------------------------------------------------------------


def _piece(document: dict[str, Any]) -> dict[str, Any]:
    return document["pieces"][0]


def _event(document: dict[str, Any], kind: str) -> dict[str, Any]:
    return next(event for event in _piece(document)["events"] if event["kind"] == kind)


def setting(*path: Any, to: Any) -> Callable[[dict[str, Any]], None]:
    def act(document: dict[str, Any]) -> None:
        node = document
        for step in path[:-1]:
            node = node[step]
        node[path[-1]] = to

    return act


def of_event(kind: str, /, **values: Any) -> Callable[[dict[str, Any]], None]:
    return lambda document: _event(document, kind)["data"].update(values)


FIRST = ("pieces", 0)
REFUSED = [
    (setting("format", to=2), "found format 2; this version reads format 1"),
    (setting("format", to=True), "found format True"),
    (setting("kind", to="recipe"), "the kind is not «tallycord export»"),
    (lambda d: d.pop("kind"), "«kind» is missing"),
    (lambda d: d.pop("pieces"), "«pieces» is missing"),
    (setting("shelf", to=[]), "«shelf» is not known"),
    (setting("pieces", to={}), "«pieces» is no list"),
    (setting(*FIRST, to=7), "pieces, number 1: a piece: a group of named values is expected"),
    (setting(*FIRST, "name", to="x\x1b[31m"), r"pieces, number 1 \(x\[31m\): name: not as Tallycord writes it"),
    (setting(*FIRST, "name", to="../other"), "name: not as Tallycord writes it"),
    (setting(*FIRST, "uid", to="' OR 1"), "uid: not as Tallycord writes it"),
    (setting(*FIRST, "owner", to="x"), "a piece: «owner» is not known"),
    (lambda d: _piece(d).pop("events"), "a piece: «events» is missing"),
    (setting(*FIRST, "events", to=[]), "events: a journal begins with the start of the piece"),
    (setting(*FIRST, "steps_done", to=3), "is not what the events come to"),
    (setting(*FIRST, "started_at", to="yesterday"), "started_at: a date with its time and zone is expected"),
    (setting(*FIRST, "started_at", to="2026-12-01T09:00:00"), "a date with its time and zone is expected"),
    (setting(*FIRST, "trouble", to="\u202eoff"), "trouble: a line of plain text is expected"),
    (setting(*FIRST, "design", "text", to="format: 1"), "design digest: it is not that of the design's text"),
    (setting(*FIRST, "design", "name", to="a\x07"), "design name: the text holds a character that can't be seen"),
    (setting(*FIRST, "design", "name", to="Another"), "plan: it is of another design"),
    (setting(*FIRST, "plan", "version", to=9), "plan: a plan of version 9: only version 1 is understood"),
    (setting(*FIRST, "plan", "unit", to="furlong"), "plan: the unit is none"),
    (setting(*FIRST, "plan", "cord", "diameter_mm", to=-1), "plan: a cord's diameter is above 0"),
    (setting(*FIRST, "plan", "cord", "layers", to=True), "plan: cord: layers: a whole number is expected"),
    (setting(*FIRST, "plan", "strands", to=[]), "plan: a plan has 1 to 100,000 elements"),
    (setting(*FIRST, "plan", "strands", 0, "elements", 1, to="=no such bead"), "not among the beads"),
    (setting(*FIRST, "plan", "strands", 0, "steps", 3, 0, to=9), "steps are numbered from 1"),
    (setting(*FIRST, "plan", "strands", 0, "steps", 3, 5, to=1.0), "a step's length is not that of its elements"),
    (setting(*FIRST, "plan", "strands", 0, "strand_length_mm", to=5.0), "length is not that of its elements"),
    (setting(*FIRST, "plan", "beads", 0, "length_mm", to=1e11), "a bead's length, diameter and hole are above 0"),
    (setting(*FIRST, "events", 0, "kind", to="exploded"), "event 1: a journal entry of a kind .* 'exploded'"),
    (setting(*FIRST, "events", 0, "data", "total_steps", to=99), "event 1: the plan has 15 steps"),
    (setting(*FIRST, "events", 3, "kind", to="started"), "event 4: a journal entry 'started' with values"),
    (of_event("confirmed", step=2), "event 3: Step 2 is not the present one: 0 of 15 are done. "),
    (of_event("confirmed", step="1"), "event 3: step: a whole number is expected"),
    (of_event("cut entered", length_mm=-5), "event 2: no such cord or length"),
    (of_event("cut entered", cord=4), "event 2: no such cord or length"),
    (of_event("measured", kind="width"), "kind: one of a few words is expected"),
    (of_event("measured", length_mm=1e9), "no such length"),
    (of_event("measured", typed="34\x1b mm"), "the text holds a character that can't be seen"),
    (of_event("noted", text="two\nlines"), "the text is no line of plain text"),
    (of_event("noted", step=400), "no such step"),
    (of_event("changed", total_steps=1), "the steps are not those of the change"),
    (of_event("changed", rest=["=ghost"]), "what is left holds what the plan has not"),
    (of_event("changed", entry=-1), "no such place in the plan"),
    (setting("cards", 0, "name", to=""), "cards, number 1: a card has a name"),
    (setting("cards", 0, "layers", to=99), "layers: 1 to 8 are expected"),
    (setting("cards", 0, "material", to="gold"), "material: one of a few words is expected"),
    (setting("cards", 0, "tests", 0, "after_mm", to=900.0), "test 1: no such test"),
    (setting("cards", 0, "tests", 0, "before_mm", to=None), "test 1: row: before_mm: a number is expected"),
    (setting("cards", 0, "tests", 0, "knots", to=0), "test 1: no such test"),
    (
        setting("cards", 0, "tests", 0, to={"at": "2026-12-01T09:00:00+00:00", "kind": "withdrawn"}),
        "no test to take out",
    ),
]


@pytest.mark.parametrize(("act", "words"), REFUSED, ids=[words[:60] for _, words in REFUSED])
def test_what_can_not_be_is_refused_whole(
    there: Workshop, tmp_path: Path, act: Callable[[dict[str, Any]], Any], words: str
) -> None:
    """The fault is in the first piece or card, a good one comes after it; and the other way round."""
    there.pieces()
    for backwards in (False, True):
        wrong = json.loads(valid_export())
        act(wrong)
        if backwards and isinstance(wrong.get("pieces"), list) and wrong["pieces"]:
            wrong["pieces"].reverse()
            words = words.replace("pieces, number 1", "pieces, number 2")
        (tmp_path / "wrong.json").write_text(json.dumps(wrong))
        with pytest.raises(WorkshopError, match=words) as refused:
            there.exports.take_in(tmp_path / "wrong.json")
        assert str(refused.value).startswith(f"{tmp_path}/wrong.json: ")
        assert str(refused.value).endswith(". Nothing was taken from it.")
        assert there.pieces() == ()
        assert there.cards() == ()


def with_raw(raw: str) -> str:
    """A valid export with that for the first piece's cut."""
    return valid_export().replace("900.0", raw, 1)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "line 1, column 1: Found no JSON object"),
        ("[]", "Found no JSON object"),
        ("{", "Found the end of the file too early"),
        ("{}", "«format» is missing"),
        ('{"format": 1', "Found neither a comma nor the end of the object"),
        ('{"format": 1,}', "Found what is not JSON in a key"),
        ('{"format": 1, "format": 1}', "Found the key «format» a second time"),
        ("{1: 2}", "Found a key that is no text"),
        ('{"format" 1}', "Found no colon after a key"),
        ('{"pieces": [1 2]}', "pieces, number 1: a piece: a group of named values is expected"),
        ('{"pieces": [', "Found the end of the file too early"),
        ('{"note": "' + "x" * 9_000_000, "Found a value too long"),
        ('{"note": ' + "[" * 100_000, "Found more than 12 levels, one in another"),
        ('{"pieces": [' + '{"a":' * 100_000, "Found more than 12 levels"),
        ('{"pieces": [[' + "[]," * 3_000_000 + "1]]", "Found more in pieces, number 1 than one can hold"),
        ('{"format": ' + "9" * 100_000 + "}", "Found a value too long in «format»"),
        (with_raw("NaN"), "Found NaN, which is no number in pieces, number 1"),
        (with_raw("-Infinity"), "Found -Infinity, which is no number"),
        (with_raw("1e999"), "Found a number that is too long or too large"),
        (with_raw("9" * 5000), "Found a number with too many digits"),
        (with_raw('900.0,"cord":0'), "Found the key «cord» a second time"),
        (with_raw("'900'"), r"line 5, column \d+: Found what is not JSON in pieces, number 1"),
        (valid_export() + "{}", "Found something after the end"),
        (
            valid_export().replace("skerry", "\\ud800", 1),
            "the text holds a character that can't be seen|plain text is expected",
        ),
    ],
    ids=lambda value: value[:30] if isinstance(value, str) else None,
)
def test_what_is_no_such_json_is_refused(there: Workshop, tmp_path: Path, text: str, words: str) -> None:
    there.pieces()
    (tmp_path / "wrong.json").write_text(text)
    with pytest.raises(WorkshopError, match=words):
        there.exports.take_in(tmp_path / "wrong.json")
    assert there.pieces() == ()


def test_bytes_that_are_no_text(there: Workshop, tmp_path: Path) -> None:
    (tmp_path / "wrong.json").write_bytes(valid_export().encode().replace(b"linen", b"\xff\xfe", 1))
    with pytest.raises(WorkshopError, match=r"line 3, column \d+: Found a byte that is not UTF-8 text"):
        there.exports.take_in(tmp_path / "wrong.json")


def test_what_is_no_plain_file(there: Workshop, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for place, words in (
        ("pipe", "is no plain file"),
        (".", "is a folder"),
        ("none", "no such file"),
        ("a\0b", "name"),
    ):
        with pytest.raises(WorkshopError, match=words):
            there.exports.take_in(tmp_path / place)


def test_more_of_everything_than_a_piece_can_have(there: Workshop, tmp_path: Path) -> None:
    wrong = json.loads(valid_export())
    note = {"at": "2026-12-01T09:00:00+00:00", "kind": "noted", "data": {"step": 0, "text": "again"}}
    _piece(wrong)["events"][2:2] = [note] * 5000
    (tmp_path / "wrong.json").write_text(json.dumps(wrong))
    with pytest.raises(WorkshopError, match="there are more events than a piece can have"):
        there.exports.take_in(tmp_path / "wrong.json")


def test_a_path_that_no_screen_may_see_is_forgotten_and_the_piece_taken(there: Workshop, tmp_path: Path) -> None:
    odd = json.loads(valid_export())
    _piece(odd)["design"]["path"] = "/home/maker/\x1b[2J/godrevy.yaml"
    (tmp_path / "odd.json").write_text(json.dumps(odd))
    assert set(there.exports.take_in(tmp_path / "odd.json").pieces.values()) == {"added"}
    assert there.open("godrevy-key-cord").design_path == ""
