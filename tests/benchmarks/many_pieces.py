"""A file of many pieces against a small one: the bench's first frame, copy, export and import. Reported, not asserted.

.venv/bin/python -m tests.benchmarks.many_pieces [--pieces 1000] [--events 100000] [--runs 7]
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.timing import BARE, REPO, filled, first_frame, in_turn

LIMITED = """
import resource, sys
from pathlib import Path
from companion.workshop import open_at
workshop, what, place = open_at(Path(sys.argv[1])), sys.argv[2], Path(sys.argv[3])
if what == "copy":
    from companion.storage.database_copy import copy_whole
    copy_whole(Path(sys.argv[1]) / "pieces.sqlite3", place)
elif what == "export":
    workshop.exports.write(place)
elif what == "import":
    workshop.exports.take_in(place)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def first_frames(homes: dict[str, Path], runs: int) -> None:
    """The bench of each, and a bare app, in turn."""
    kinds = {"bare app": (["-c", BARE], b"bare app is here", REPO)}
    kinds |= {name: (["-m", "companion"], b"Under way", home) for name, home in homes.items()}
    middles = in_turn({name: lambda kind=kind: first_frame(*kind) for name, kind in kinds.items()}, runs)
    small, large = homes
    print(f"  ratio of the large bench to the small one: {middles[large] / middles[small]:.2f}")


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
    os.environ.pop("TALLYCORD_HOME", None)
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
