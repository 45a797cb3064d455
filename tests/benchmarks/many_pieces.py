"""A file of many pieces against a small one: the bench's first frame, copy, export and import. Reported, not asserted.

.venv/bin/python -m tests.benchmarks.many_pieces [--pieces 1000] [--events 100000] [--runs 7]
"""

from __future__ import annotations

import argparse
import os
import resource
import sqlite3
import subprocess
import sys
import tempfile
import time
from contextlib import closing
from pathlib import Path

from companion.workshop import open_at
from tests.benchmarks.speed import BARE, REPO, Run, say

SKERRY = REPO / "patterns" / "skerry-bracelet.yaml"
NEAR_THE_END = 27  # of 28 steps: taken back and made again to and fro, as hands do
LIMITED = """
import resource, sys
from pathlib import Path
from companion.workshop import open_at
workshop, what, place = open_at(Path(sys.argv[1])), sys.argv[2], Path(sys.argv[3])
if what == "copy":
    from companion.storage.backups import copy_whole
    copy_whole(Path(sys.argv[1]) / "pieces.sqlite3", place)
elif what == "export":
    workshop.export_to(place)
elif what == "import":
    workshop.import_from(place)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def filled(home: Path, pieces: int, events: int) -> None:
    """A home with so many pieces, and so many events over them: one is made by the workshop, the others are like it."""
    workshop = open_at(home)
    opened = workshop.start(SKERRY)
    while opened.piece.done < NEAR_THE_END:
        opened = workshop.confirm(opened)
    while opened.revision < max(NEAR_THE_END + 1, events // pieces):
        opened = workshop.undo(opened) if opened.piece.done == NEAR_THE_END else workshop.confirm(opened)
    workshop.close()
    with closing(sqlite3.connect(home / "pieces.sqlite3")) as db, db:
        columns = [name for _, name, *_ in db.execute("PRAGMA table_info(piece)") if name not in ("id", "uid", "name")]
        listed = ", ".join(columns)
        for number in range(2, pieces + 1):
            db.execute(
                f"INSERT INTO piece (id, uid, name, {listed}) SELECT ?, ?, ?, {listed} FROM piece WHERE id = 1",
                (number, f"{number:032x}", f"skerry-bracelet-{number}"),
            )
            db.execute("INSERT INTO event SELECT ?, seq, at, kind, data FROM event WHERE piece_id = 1", (number,))


def first_frames(homes: dict[str, Path], runs: int) -> None:
    """The bench of each, and a bare app, in turn."""
    kinds = {"bare app": (["-c", BARE], b"bare app is here", str(REPO))}
    kinds |= {name: (["-m", "companion"], b"Under way", str(home)) for name, home in homes.items()}
    times: dict[str, list[float]] = {name: [] for name in kinds}
    for number in range(runs + 1):
        for name, (arguments, words, home) in kinds.items():
            run = Run(arguments, home)
            took = run.until(words) - run.begun
            run.end()
            if number:
                times[name].append(took)
    middles = [say(f"first frame, {name}", each) for name, each in times.items()]
    print(f"  ratio of the large bench to the small one: {middles[2] / middles[1]:.2f}")


def by_itself(home: Path, what: str, place: Path) -> None:
    """One of copy, export, import in a process of its own: its time, and the most memory it held."""
    begun = time.perf_counter()
    ran = subprocess.run(
        [sys.executable, "-c", LIMITED, home, what, place], check=True, capture_output=True, text=True, cwd=REPO
    )
    took, size = time.perf_counter() - begun, place.stat().st_size / 1e6
    print(f"  {what:<8} {took:6.2f} s, {float(ran.stdout):5.0f} MB of memory; the file has {size:.1f} MB")


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--pieces", type=int, default=1000)
    options.add_argument("--events", type=int, default=100_000)
    options.add_argument("--runs", type=int, default=7)
    chosen = options.parse_args()
    os.environ.pop("COMPANION_HOME", None)
    with tempfile.TemporaryDirectory() as name:
        small, large, empty = (Path(name) / kind for kind in ("small", "large", "empty"))
        filled(small, 3, 90)
        filled(large, chosen.pieces, chosen.events)
        first_frames({"three pieces": small, f"{chosen.pieces} pieces": large}, chosen.runs)
        for home, kind in ((small, "small"), (large, "large")):
            print(f"{kind} file")
            by_itself(home, "copy", Path(name) / f"{kind}.copy")
            by_itself(home, "export", Path(name) / f"{kind}.json")
            by_itself(empty / kind, "import", Path(name) / f"{kind}.json")
    print(f"this process: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main()
