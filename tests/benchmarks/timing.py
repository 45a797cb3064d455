"""What the speed programs share: whole processes in a pseudo-terminal, taken in turn, and homes with pieces in them."""

from __future__ import annotations

import os
import pty
import select
import sqlite3
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from contextlib import closing
from pathlib import Path

from companion.workshop import open_at

REPO = Path(__file__).parents[2]
SKERRY = REPO / "patterns" / "skerry-bracelet.yaml"
NEAR_THE_END = 32  # of 33 steps: taken back and made again to and fro, as hands do
QUIET_SECONDS = 0.15  # a screen that has written nothing for so long has come to rest
BARE = """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("bare app is here")
Bare().run()
"""


def environment(home: Path | str = "", compiled: Path | str = "") -> dict[str, str]:
    """For a measured process: its home, and where compiled modules are kept. An installed package is compiled, so what
    is measured here is too, whatever the machine is set to."""
    values = {**os.environ, "TERM": "xterm-256color", "COLUMNS": "80", "LINES": "24"}
    values |= {"TALLYCORD_HOME": str(home)} if home else {}
    values |= {"TALLYCORD_KEY_BOUNCE": "0"}  # a script types faster than a hand
    if compiled:
        values.pop("PYTHONDONTWRITEBYTECODE", None)
        values["PYTHONPYCACHEPREFIX"] = str(compiled)
    return values


class Run:
    """A program in a pseudo-terminal of 80 x 24, and what it has written."""

    def __init__(self, arguments: list[str], home: Path | str, compiled: Path | str = "") -> None:
        self.master, slave = pty.openpty()
        self.begun = time.perf_counter()
        self.process = subprocess.Popen(
            [sys.executable, *arguments],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            cwd=REPO,
            env=environment(home, compiled),
        )
        os.close(slave)
        self.written = b""

    def until(self, words: bytes) -> float:
        """The moment at which those words were written."""
        while words not in self.written:
            if not self._read(30):
                raise TimeoutError(words)
        return time.perf_counter()

    def until_quiet(self) -> None:
        """Until nothing more is written for a while."""
        while self._read(QUIET_SECONDS):
            pass

    def _read(self, seconds: float) -> bool:
        ready, _, _ = select.select([self.master], [], [], seconds)
        if ready:
            self.written += os.read(self.master, 65536)
        return bool(ready)

    def press(self, key: bytes) -> float:
        """Press a key; the moment of it. What was written before is forgotten."""
        self.written = b""
        os.write(self.master, key)
        return time.perf_counter()

    def end(self) -> None:
        """Kill it."""
        self.process.kill()
        self.process.wait()
        os.close(self.master)


def first_frame(arguments: list[str], words: bytes, home: Path | str, compiled: Path | str = "") -> float:
    """Seconds until those words stand on the screen of a program just started."""
    run = Run(arguments, home, compiled)
    took = run.until(words) - run.begun
    run.end()
    return took


def in_turn(kinds: Mapping[str, Callable[[], float]], runs: int) -> dict[str, float]:
    """The median seconds of each, the first round not counted; said. They take turns, so that a machine that slows
    down slows all."""
    times: dict[str, list[float]] = {name: [] for name in kinds}
    for number in range(runs + 1):
        for name, once in kinds.items():
            took = once()
            if number:
                times[name].append(took)
    return {name: say(name, each) for name, each in times.items()}


def say(name: str, times: list[float]) -> float:
    """The median, said with the least and the most."""
    middle = statistics.median(times)
    print(
        f"  {name:<46} {min(times) * 1000:8.1f} {middle * 1000:8.1f} {max(times) * 1000:8.1f}  ms (least, middle, most)"
    )
    return middle


def say_ratio(name: str, medians: Mapping[str, float], base: str, aim: float) -> None:
    """One median over another, beside what it should be at most."""
    print(f"  -> {name} / {base}: {medians[name] / medians[base]:.2f} (at most {aim})")


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
