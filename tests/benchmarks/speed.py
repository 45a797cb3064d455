"""Speed, as ratios within one run: quick commands, first frame, key to painted, plan of a long design. Reported, never
asserted.

    .venv/bin/python -m tests.benchmarks.speed [--runs 15] [--only commands frames keys plan]

Whole processes, compiled as an installed package is; medians; those that are held against one another take turns.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from companion.workshop import open_at
from tests.benchmarks.timing import BARE, REPO, SKERRY, Run, environment, filled, first_frame, in_turn, say_ratio

BEGUN_STEPS = 9  # of the piece that is gone on with
# The smallest app that does what a confirmed step does: one event and one row in one transaction, one line painted.
BARE_WRITER = """
import sqlite3, sys
from textual.app import App
from textual.widgets import Static
class BareWriter(App):
    BINDINGS = [("space", "step", "step")]
    CSS = "Static { height: 1; width: 1fr; }"
    def compose(self):
        yield Static("step 1 of 9999", id="line")
    def on_mount(self):
        self.step = 1
        self.db = sqlite3.connect(sys.argv[1], isolation_level=None)
        self.db.execute("PRAGMA synchronous = EXTRA")
    def action_step(self):
        self.db.execute("BEGIN IMMEDIATE")
        (last,) = self.db.execute("SELECT max(seq) FROM event WHERE piece_id = 1").fetchone()
        data = '{"step": %d}' % self.step
        at = "2026-12-01T12:00:00+00:00"
        self.db.execute("INSERT INTO event VALUES (1, ?, ?, 'Confirmed', ?)", (last + 1, at, data))
        self.db.execute("UPDATE piece SET touched_at = ?, steps_done = ? WHERE id = 1", (at, self.step))
        self.db.execute("COMMIT")
        self.step += 1
        self.query_one("#line").update(f"step {self.step} of 9999", layout=False)
BareWriter().run()
"""


def long_design(path: Path, steps: int) -> Path:
    """A design of so many bead-and-knot steps, its layout written out line by line."""
    lines = ["format: 1", f"name: Long light {steps}", "cord: {name: nylon, diameter: 0.6 mm}"]
    lines += ["beads: {red: {length: 6 mm}, white: {length: 6 mm}}", "strand:", "  layout:"]
    for step in range(steps):
        lines += [f"    - {'white' if step % 6 == 5 else 'red'}", "    - knot"]
    path.write_text("\n".join(lines) + "\n")
    return path


def begun(home: Path, steps: int, design: Path = SKERRY) -> str:
    """A piece under way with so many steps done, in that home; its name."""
    workshop = open_at(home)
    opened = workshop.start(design)
    for _ in range(steps):
        opened = workshop.confirm(opened)
    workshop.close()
    return opened.name


def seconds_of(arguments: list[str], home: Path, compiled: Path) -> Callable[[], float]:
    """Once through a whole process, in seconds."""

    def once() -> float:
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, *arguments],
            cwd=REPO,
            env=environment(home, compiled),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=True,
        )
        return time.perf_counter() - start

    return once


def quick_commands(runs: int, folder: Path) -> None:
    """Commands that a script or a pedal runs, against a Python that does nothing."""
    print("quick commands, whole processes")
    home = folder / "commands"
    asked, made = begun(home, BEGUN_STEPS), begun(home, 1, long_design(folder / "made.yaml", 200))
    kinds = {
        "python -c pass": ["-c", "pass"],
        "--version": ["-m", "companion", "--version"],
        "next": ["-m", "companion", "next", made],
        "status": ["-m", "companion", "status", asked],
        "pieces": ["-m", "companion", "pieces"],
    }
    timed = {name: seconds_of(arguments, home, folder / "compiled") for name, arguments in kinds.items()}
    middles = in_turn(timed, runs)
    for name, aim in (("--version", 2.0), ("next", 5.0), ("status", 5.0)):
        say_ratio(name, middles, "python -c pass", aim)


def first_frames(runs: int, folder: Path) -> None:
    """Until something to read stands on the screen, against an app of one line."""
    print("first frame")
    many, under_way, fresh = folder / "many", folder / "under-way", folder / "fresh"
    filled(many, 200, 6000)
    begun(under_way, BEGUN_STEPS)
    begun(fresh, 0)
    kinds = {
        "bare app": (["-c", BARE], b"bare app is here", many),
        "the bench of 200 pieces": (["-m", "companion"], b"Under way", many),
        "a piece gone on with": (["-m", "companion", "follow", str(SKERRY)], b"9 of 33", under_way),
        "a piece at its first step": (["-m", "companion", "follow", str(SKERRY)], b"step 1 of", fresh),
    }

    compiled = folder / "compiled"
    middles = in_turn({name: lambda kind=kind: first_frame(*kind, compiled) for name, kind in kinds.items()}, runs)
    for name in list(kinds)[1:]:
        say_ratio(name, middles, "bare app", 1.35)


def key_to_painted(runs: int, folder: Path) -> None:
    """From a key until its step is on disk and painted, against the bare writer, each pressed when it is at rest."""
    print("key to durable and painted")
    written, keys = folder / "written", folder / "keys"
    begun(written, 1)
    running: dict[str, tuple[Run, int]] = {}
    running["bare app, same write, one line"] = (
        Run(["-c", BARE_WRITER, str(written / "pieces.sqlite3")], written, folder / "compiled"),
        1,
    )
    for steps in (50, 1000, 10000):
        design = long_design(folder / f"{steps}.yaml", steps)
        begun(keys, 1, design)
        app = Run(["-m", "companion", "follow", str(design)], keys, folder / "compiled")
        app.until(b"carry on")  # the recap
        app.until_quiet()
        app.press(b"\r")
        running[f"a step of {steps}"] = (app, 2)
    for app, step in running.values():
        app.until(f"step {step} of".encode())
        app.until_quiet()
    presses = dict.fromkeys(running, 0)

    def once(name: str) -> float:
        app, first = running[name]
        presses[name] += 1
        pressed = app.press(b" ")
        took = app.until(f"step {first + presses[name]} of".encode()) - pressed
        app.until_quiet()
        return took

    middles = in_turn({name: lambda name=name: once(name) for name in running}, 2 * runs)
    for app, _ in running.values():
        app.end()
    bare, short, *_, long = running
    say_ratio(short, middles, bare, 1.15)
    print(f"  ratio of 10,000 to 50 steps: {middles[long] / middles[short]:.2f}")


def plan_of_a_long_design(runs: int, folder: Path) -> None:
    """The plan of 10,000 steps, against what reads its YAML alone."""
    print("plan of 10,000 steps, layout written out line by line, whole processes")
    design = str(long_design(folder / "plan.yaml", 10000))
    c_loader = f"import yaml; yaml.load(open({design!r}), Loader=yaml.CSafeLoader)"
    base = "the C loader, and pydantic imported"
    kinds = {
        "yaml.safe_load of the file": ["-c", f"import yaml; yaml.safe_load(open({design!r}))"],
        base: ["-c", f"import pydantic; {c_loader}"],
        "tallycord plan --json": ["-m", "companion", "plan", "--json", design],
        "tallycord check": ["-m", "companion", "check", design],
    }
    timed = {name: seconds_of(arguments, folder / "plan", folder / "compiled") for name, arguments in kinds.items()}
    middles = in_turn(timed, runs)
    say_ratio("tallycord plan --json", middles, base, 2.5)


PARTS = {
    "commands": quick_commands,
    "frames": first_frames,
    "keys": key_to_painted,
    "plan": plan_of_a_long_design,
}


def main() -> None:
    """Measure what is asked for."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--runs", type=int, default=15)
    options.add_argument("--only", nargs="+", choices=list(PARTS), default=list(PARTS))
    chosen = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        for name in chosen.only:
            PARTS[name](chosen.runs, Path(folder))


if __name__ == "__main__":
    main()
