"""Power cuts: what was not yet forced to the disk may be there, not there, or there in part.

The shim writes down every write, sync, truncation, creation and removal below the home while a maker works. From that
record the disk is made again as it may be found after each of them: of what was never synced any part, cut at sectors
of 512 bytes, in any order; of the names that came and went in a folder, any first few. Then Tallycord opens it.
"""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import struct
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from companion.core.values.errors import WorkshopError
from companion.storage.folders import DATABASE
from companion.workshop import OpenPiece, Workshop, open_at
from tests.harness import shim
from tests.harness.scenarios import CARD, TEST, prepare, snapshot

REPO = Path(__file__).parents[2]
WRITE, SYNC, TRUNCATE, UNLINK, CREATE, RENAME = range(1, 7)
SECTOR = 512
ACKNOWLEDGED = "acked"  # the file in which the maker's process says how much is stored
_HEAD = struct.Struct("4q")


@dataclass(frozen=True)
class Record:
    """One thing that was done to the disk."""

    what: int
    path: str
    offset: int
    data: bytes


@dataclass
class File:
    """A file's content: on disk for certain, and what was done to it since."""

    content: bytes = b""
    since: list[Record] = field(default_factory=list)

    def after_cut(self, draw: random.Random) -> bytes:
        """As it may be found after a power cut."""
        content, way = bytearray(self.content), draw.choice(("all", "none", "some", "torn"))
        for record in self.since:
            if way == "none" or (way in ("some", "torn") and draw.random() < 0.5):
                continue
            _apply(content, record, draw if way == "torn" else None)
        return bytes(content)

    def sync(self) -> None:
        """All that was done to it is on disk for certain."""
        content = bytearray(self.content)
        for record in self.since:
            _apply(content, record, None)
        self.content, self.since = bytes(content), []


class Disk:
    """A folder: the names that are on disk for certain, and those that came and went since it was last synced."""

    def __init__(self, folder: Path) -> None:
        self.folder = str(folder)
        self.names = {path.name: File(path.read_bytes()) for path in folder.iterdir() if path.is_file()}
        self.seen = dict(self.names)  # as the running program sees them
        self.since: list[tuple[str, File | None]] = []

    def apply(self, record: Record) -> None:
        """One more thing done."""
        name = os.path.basename(record.path)
        if record.path == self.folder:
            if record.what == SYNC:
                self.names = self._names(len(self.since))
                self.since = []
        elif os.path.dirname(record.path) != self.folder:
            return  # copies, in a folder of their own
        elif record.what == CREATE:
            self.seen[name] = File()
            self.since.append((name, self.seen[name]))
        elif record.what == UNLINK:
            self.seen.pop(name, None)
            self.since.append((name, None))
        elif record.what == SYNC and name in self.seen:
            self.seen[name].sync()
        elif record.what in (WRITE, TRUNCATE) and name in self.seen:
            self.seen[name].since.append(record)

    def after_cut(self, draw: random.Random) -> dict[str, bytes]:
        """Every file as it may be found after a power cut."""
        names = self._names(draw.randint(0, len(self.since)))
        return {name: file.after_cut(draw) for name, file in names.items()}

    def _names(self, many: int) -> dict[str, File]:
        names = dict(self.names)
        for name, file in self.since[:many]:
            if file is None:
                names.pop(name, None)
            else:
                names[name] = file
        return names


def _apply(content: bytearray, record: Record, torn: random.Random | None) -> None:
    if record.what == TRUNCATE:
        del content[record.offset :]
        content.extend(bytes(record.offset - len(content)))
        return
    end = record.offset + len(record.data)
    content.extend(bytes(max(0, end - len(content))))
    for begin in range(0, len(record.data), SECTOR):
        if torn is None or torn.random() < 0.5:
            part = record.data[begin : begin + SECTOR]
            content[record.offset + begin : record.offset + begin + len(part)] = part


def records(trace: Path) -> Iterator[Record]:
    """What the shim has written down."""
    whole, at = trace.read_bytes(), 0
    while at < len(whole):
        what, path_length, offset, length = _HEAD.unpack_from(whole, at)
        at += _HEAD.size
        path = whole[at : at + path_length].decode()
        at += path_length
        data = whole[at : at + length] if what == WRITE else b""
        at += len(data)
        yield Record(what, path, offset, data)


@dataclass
class PowerCuts:
    """What came of it. `rolled_back`: disks on which SQLite found a journal; `wrong`: a sentence for each fault."""

    writes: int = 0
    disks: int = 0
    rolled_back: int = 0
    wrong: list[str] = field(default_factory=list)


def run_trials(folder: Path, seed: int = 1, *, acts: int = 20, each: int = 3, home: str = "under way") -> PowerCuts:
    """A maker does so many acts, beginning from a home of `scenarios.prepare`; after every write the power is cut
    `each` times."""
    folder.mkdir(parents=True, exist_ok=True)
    prepare(folder)
    control, trace, place = shim.Control(folder / "control"), folder / "trace", folder / home
    disk = Disk(place)
    layer = shim.environment(shim.build(folder), control, place, trace)
    command = [sys.executable, "-m", "tests.harness.power_cut", str(place), str(folder / "short.yaml")]
    subprocess.run([*command, str(acts), str(seed)], cwd=REPO, env=os.environ | layer, check=True)
    final, draw, result, acknowledged = _stored(place), random.Random(f"cut {seed}"), PowerCuts(), 0
    for record in records(trace):
        if os.path.basename(record.path) == ACKNOWLEDGED:
            acknowledged = int(record.data.split()[-1]) if record.what == WRITE else acknowledged
            continue
        disk.apply(record)
        result.writes += 1
        for _ in range(each):
            result.disks += 1
            _check(folder / "found", disk.after_cut(draw), acknowledged, final, result)
    return result


def _check(place: Path, found: dict[str, bytes], acknowledged: int, final: list[object], result: PowerCuts) -> None:
    """Make that disk again and open it: all that was acknowledged is there, and nothing that was never done."""
    shutil.rmtree(place, ignore_errors=True)
    place.mkdir()
    for name, content in found.items():
        (place / name).write_bytes(content)
    result.rolled_back += any(name.endswith("-journal") for name in found)
    try:
        workshop = open_at(place)
        try:
            for row in workshop.pieces():
                workshop.open(row.name)
        finally:
            workshop.close()
        stored = _stored(place)
    except (WorkshopError, AssertionError, sqlite3.Error) as error:
        result.wrong.append(f"after write {result.writes}: {type(error).__name__} {error}")
        return
    if len(stored) < acknowledged:
        result.wrong.append(f"after write {result.writes}: {acknowledged} were acknowledged, {len(stored)} are stored")
    if stored != final[: len(stored)]:
        result.wrong.append(f"after write {result.writes}: what is stored is something else")


def _stored(place: Path) -> list[object]:
    """Every event in the order in which it was entered."""
    events = snapshot(place).get("events", [])
    assert isinstance(events, list)
    return events


def _act_under_shim(home: Path, design: Path, acts: int, seed: int) -> None:
    """The maker's process; after each act it acknowledges the number of events that are stored."""
    draw, workshop = random.Random(f"work {seed}"), open_at(home)
    acknowledged = os.open(home / ACKNOWLEDGED, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    for number in range(acts):
        rows = sorted(workshop.pieces(), key=lambda row: row.id)
        opened = workshop.open(rows[-1].name) if rows else None
        if opened is None or number == acts // 2:
            workshop.start(design)
        else:
            _act(workshop, opened, number, draw)
        os.write(acknowledged, f"{len(_stored(home))}\n".encode())
    workshop.close()


def _act(workshop: Workshop, opened: OpenPiece, number: int, draw: random.Random) -> None:
    match draw.choice(("confirm", "confirm", "confirm", "undo", "measure", "note", "card")):
        case "undo" if opened.piece.before is not None:
            workshop.undo(opened)
        case "measure":
            workshop.measure(opened, "strand", 10.0 + number, f"{10 + number} mm")
        case "note":
            workshop.note(opened, f"{number} " * draw.choice((1, 2000)))
        case "card":
            workshop.add_tests(CARD, TEST)
        case _ if opened.piece.done < opened.piece.total_steps:
            workshop.confirm(opened)


if __name__ == "__main__":
    _act_under_shim(Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4]))
    assert (Path(sys.argv[1]) / DATABASE).exists()
