"""Fuzzing with exports gone wrong: refused whole, in words, or taken so that every piece can be gone on with."""

from __future__ import annotations

import contextlib
import copy
import json
import random
import re
import sqlite3
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import closing
from functools import cache
from pathlib import Path
from typing import Any

from companion.core.journal.event_document import event_from_document
from companion.core.journal.fold import fold
from companion.core.values.errors import WorkshopError
from companion.workshop import open_at
from tests.harness import piece_walk
from tests.harness.fuzz import Trial, run_trial
from tests.harness.rich_exports import rich_export

VERSION_2 = Path(__file__).parents[1] / "storage" / "version_2.sql"
NOISE = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]|Traceback")


@cache
def valid_export() -> str:
    """The export of a file of pieces with every kind of event, and a cord card."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        with closing(sqlite3.connect(home / "pieces.sqlite3")) as db:
            db.executescript(VERSION_2.read_text(encoding="utf-8"))
        workshop = open_at(home)
        text = "\n".join(workshop.exports.lines())
        workshop.close()
    return text


# -- what goes wrong --------------------------------------------------------------------------------------------------

HOSTILE: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 2, 7, 10**6, 10**12, 10**24, 0.0, -0.5, 1e-300, 1e11, 1e300, 0.1),
    *("", " ", "x", "=white", "single", "confirmed", "started", "finished", "tallycord export", "../../x", "x" * 5000),
    *("\x1b[31m", "\u202e", "\ud800", "a\nb", "[b]x[/b]"),
    *("2026-12-01", "2026-12-01T00:00:00", "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00"),
    *([], {}, [[]], [None], {"x": 1}, [1, 2, 3], ["=white"]),
)
RAW = (
    *("NaN", "Infinity", "-Infinity", "1e999", "9" * 5000, "-" + "9" * 30, "0." + "1" * 300, "01", "1.", "'x'", "tru"),
    *("[" * 300, "[" * 40 + "]" * 40, '{"a":' * 30 + "1" + "}" * 30, '{"a":1,"a":2}'),
    *('"\t"', '"\\ud800"', '"\\x"', "/**/1", ""),
)
MARK = "8d1c2f47-here"
RICH = 60  # so many exports are begun from, besides the one with every kind of event


def mutated_export(number: int) -> bytes:
    """A valid export with something done to it, drawn from that number."""
    draw = random.Random(f"import {number}")
    ways = (_in_bytes, _in_values, _in_raw_values, _in_figures, _in_journal)
    (mutate,) = draw.choices(ways, weights=(1, 5, 1, 6, 7))
    valid = rich_export(draw.randrange(RICH)) if draw.random() < 0.8 else valid_export()
    return mutate(draw, valid)


def _in_bytes(draw: random.Random, valid: str) -> bytes:
    data = bytearray(valid.encode())
    for _ in range(draw.choice((1, 1, 2, 5))):
        at = draw.randrange(len(data))
        much = min(draw.choice((1, 1, 3, 50, 5000)), len(data) - at)
        match draw.randrange(5):
            case 0:
                data[at] = draw.randrange(256)
            case 1:
                del data[at : at + much]
            case 2:
                data[at:at] = data[at : at + much]
            case 3:
                del data[at:]
            case 4:
                data[at:at] = draw.choice((b'"', b"{", b"}", b"[", b"]", b",", b":", b"\\", b"\xff", b"\x00", b"0"))
        if not data:
            break
    return bytes(data)


def _places(node: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Every place below a value."""
    keys = node.keys() if isinstance(node, dict) else range(len(node)) if isinstance(node, list) else ()
    for key in keys:
        yield (*path, key)
        yield from _places(node[key], (*path, key))


def _chosen(draw: random.Random, document: Any) -> tuple[Any, Any]:
    """A place somewhere below: what holds it, and its key. Shallow places come as often as deep ones."""
    places = list(_places(document))
    depth = draw.choice([len(path) for path in places[:: max(1, len(places) // 50)]])
    *above, key = draw.choice([path for path in places if len(path) == depth])
    holder = document
    for step in above:
        holder = holder[step]
    return holder, key


def _in_values(draw: random.Random, valid: str) -> bytes:
    document = json.loads(valid)
    for _ in range(draw.choice((1, 1, 1, 2, 4))):
        holder, key = _chosen(draw, document)
        _change(draw, holder, key)
        if not list(_places(document)):
            break
    return json.dumps(document).encode()


def _change(draw: random.Random, holder: Any, key: Any) -> None:
    value = holder[key]
    match draw.randrange(7):
        case 0:
            del holder[key]
        case 1 if isinstance(holder, list):
            holder.insert(key, value)
        case 2 if isinstance(holder, list):
            other = draw.randrange(len(holder))
            holder[key], holder[other] = holder[other], value
        case 3 if isinstance(value, (int, float)) and not isinstance(value, bool):
            holder[key] = value + draw.choice((1, -1, 0.5, 1000, -1000))
        case 4 if isinstance(holder, dict):
            holder[draw.choice(("x", "uid", "seq", "__class__", "more", "name"))] = value
        case 5 if isinstance(holder, list):
            holder[key:key] = [value] * draw.choice((3, 40))
        case _:
            holder[key] = draw.choice(HOSTILE)


def _in_raw_values(draw: random.Random, valid: str) -> bytes:
    document = json.loads(valid)
    holder, key = _chosen(draw, document)
    holder[key] = MARK
    return json.dumps(document).replace(f'"{MARK}"', draw.choice(RAW)).encode()


FIGURES = (0, 0.0, 1e-300, 1e-12, 1e-6, 0.01, 0.5, 1, 2, 10, 1e3, 1e6, 1e9, 1e11, 1e12)
FACTORS = (0, 1e-9, 0.1, 0.5, 0.99, 1.01, 2, 10, 1e3, 1e6, -1)


def _figure(draw: random.Random, value: float) -> float:
    """Another figure in its place: one that might be, at the edge of what can be."""
    other = value * draw.choice(FACTORS) if draw.random() < 0.5 else draw.choice(FIGURES)
    return round(other) if isinstance(value, int) and draw.random() < 0.9 else other


def _in_figures(draw: random.Random, valid: str) -> bytes:
    """Figures of a plan on which little else hangs: what is taken rests on them, however odd they are."""
    document = json.loads(valid)
    plan = draw.choice(document["pieces"])["plan"]
    places = [path for path in _places(plan) if not {"steps", "elements", "version"} & set(path)]
    figures = [path for path in places if type(_at(plan, path)) in (int, float)]
    for *above, key in draw.choices(figures, k=draw.choice((1, 1, 2, 3))):
        holder = _at(plan, above)
        holder[key] = _figure(draw, holder[key])
    return json.dumps(document).encode()


def _at(node: Any, path: Sequence[Any]) -> Any:
    for step in path:
        node = node[step]
    return node


def _in_journal(draw: random.Random, valid: str) -> bytes:
    """Another journal, as somebody might have written it; what the piece comes to is put right where it folds."""
    document = json.loads(valid)
    piece = draw.choice(document["pieces"])
    events = piece["events"]
    for _ in range(draw.choice((1, 1, 2, 5))):
        at = draw.randrange(1, len(events) + 1)
        match draw.randrange(5):
            case 0 if at < len(events):
                del events[at:]
            case 1 if at < len(events):
                del events[at]
            case 2:
                events.insert(at, copy.deepcopy(draw.choice(events)))
            case 3:
                other = draw.choice(json.loads(rich_export(draw.randrange(RICH)))["pieces"])["events"]
                events.insert(at, draw.choice(other))
            case _:
                event = events[at - 1]
                figures = [path for path in _places(event["data"]) if type(_at(event["data"], path)) in (int, float)]
                for *above, key in draw.sample(figures, min(1, len(figures))):
                    holder = _at(event["data"], above)
                    holder[key] = _figure(draw, holder[key])
    with contextlib.suppress(ValueError):
        stands = fold(event_from_document(event["kind"], event["data"]) for event in events)
        piece |= {"state": stands.state, "steps_done": stands.done, "steps_total": stands.total_steps}
    return json.dumps(document).encode()


# -- what must hold ---------------------------------------------------------------------------------------------------


def import_export(folder: Path, number: int) -> Trial:
    """Take one of them in."""

    def act() -> tuple[str, str]:
        with tempfile.TemporaryDirectory(dir=folder) as name:
            return "taken" if taken_or_refused(mutated_export(number), Path(name)) else "refused", ""

    return run_trial(number, act, limited=False)  # what was taken is walked through by every command and page


def taken_or_refused(data: bytes, folder: Path) -> bool:
    """Take the document in, in a home below the folder, and check all that comes of it; whether it was taken.

    Refused: in clean words, and nothing was taken. Taken: every piece opens and can be gone on with, and taken once
    more it changes nothing. Raises AssertionError or anything else where that does not hold.
    """
    home, document = folder / "home", folder / "document.json"
    document.write_bytes(data)
    workshop = open_at(home)
    workshop.pieces()
    before = _written(home)
    try:
        merged = workshop.exports.take_in(document)
    except WorkshopError as error:
        _check_refusal(str(error).replace(str(folder), ""), before, _written(home))
        return False
    finally:
        workshop.close()
    stored = _written(home)
    again = open_at(home)
    for row in again.pieces():
        opened = again.open(row.name)
        again.outlook(opened)
        again.remedies(opened)
        assert (opened.piece.done, opened.piece.state) == (row.steps_done, row.state)
        assert not NOISE.search(f"{row.name}{row.warning}")
    again.cards()
    twice = again.exports.take_in(document)
    assert set(twice.pieces.values()) | set(twice.cards.values()) <= {"same", "apart", "behind"}, twice
    assert list(twice.pieces) == list(merged.pieces)
    again.close()
    assert _written(home) == stored
    _walk_through(home)
    return True


def _written(home: Path) -> list[str]:
    """All that the file of pieces holds."""
    path = home / "pieces.sqlite3"
    if not path.exists():
        return []
    with closing(sqlite3.connect(path)) as db:
        return list(db.iterdump())


def _check_refusal(words: str, before: list[str], after: list[str]) -> None:
    assert words
    assert not NOISE.search(words), words
    assert len(words) < 2000
    assert not [line for line in after if line.startswith("INSERT") and line not in before]


_WALKED: set[int] = set()  # pieces that were walked through already: most documents leave one of theirs as it was


def _walk_through(home: Path) -> None:
    """Every piece that is another than those before, by every command and page."""
    workshop = open_at(home)
    kept = {
        row.name: hash((opened.plan, opened.piece, workshop.journal(opened)[-1].event, workshop.cards()))
        for row in workshop.pieces()
        for opened in [workshop.open(row.name)]
    }
    workshop.close()
    new = [name for name, value in kept.items() if value not in _WALKED]
    for name in new:
        piece_walk.commands(home, name, piece_walk.READING)
    if new:
        piece_walk.pages(home)
    for name in new:
        piece_walk.commands(home, name, piece_walk.CHANGING)
    _WALKED.update(kept.values())
