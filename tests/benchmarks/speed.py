"""Speed, as ratios within one run: first frame, key to painted, plan of a long design. Reported, never asserted.

    .venv/bin/python tests/benchmarks/speed.py [--runs 7]

Whole processes in a real pseudo-terminal; medians; the two of a pair take turns, so that a machine that slows down
slows both.
"""

from __future__ import annotations

import argparse
import os
import pty
import select
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

REPO = Path(__file__).parents[2]
BARE = """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("bare app is here")
Bare().run()
"""


class Run:
    """A program in a pseudo-terminal of 80 x 24, and what it has written."""

    def __init__(self, arguments: list[str], home: str) -> None:
        self.master, slave = pty.openpty()
        environment = {**os.environ, "TERM": "xterm-256color", "COMPANION_HOME": home, "COLUMNS": "80", "LINES": "24"}
        self.begun = time.perf_counter()
        self.process = subprocess.Popen(
            [sys.executable, *arguments], stdin=slave, stdout=slave, stderr=slave, cwd=REPO, env=environment
        )
        os.close(slave)
        self.written = b""

    def until(self, words: bytes) -> float:
        """The moment at which those words were written."""
        while words not in self.written:
            ready, _, _ = select.select([self.master], [], [], 30)
            if not ready:
                raise TimeoutError(words)
            self.written += os.read(self.master, 65536)
        return time.perf_counter()

    def press(self, key: bytes) -> float:
        self.written = b""
        os.write(self.master, key)
        return time.perf_counter()

    def end(self) -> None:
        self.process.kill()
        self.process.wait()
        os.close(self.master)


def long_design(path: Path, steps: int) -> Path:
    """A design of so many bead-and-knot steps, its layout written out line by line."""
    lines = ["format: 1", f"name: Long light {steps}", "cord: {name: nylon, diameter: 0.6 mm}"]
    lines += ["beads: {red: {length: 6 mm}, white: {length: 6 mm}}", "strand:", "  layout:"]
    for step in range(steps):
        lines += [f"    - {'white' if step % 6 == 5 else 'red'}", "    - knot"]
    path.write_text("\n".join(lines) + "\n")
    return path


def say(name: str, times: list[float]) -> float:
    middle = statistics.median(times)
    print(
        f"  {name:<46} {min(times) * 1000:8.1f} {middle * 1000:8.1f} {max(times) * 1000:8.1f}  ms (least, middle, most)"
    )
    return middle


def first_frame(runs: int, folder: Path) -> None:
    print("first frame")
    home = str(folder / "first")
    skerry = str(REPO / "patterns" / "skerry-bracelet.yaml")
    start = ["-m", "companion", "start", skerry]
    subprocess.run(
        [sys.executable, *start], check=True, cwd=REPO, capture_output=True, env={**os.environ, "COMPANION_HOME": home}
    )
    kinds = {
        "bare app": (["-c", BARE], b"bare app is here"),
        "a piece under way, in the follow screen": (["-m", "companion", "follow", skerry], b"step 1 of"),
        "the bench": (["-m", "companion"], b"Under way"),
    }
    times: dict[str, list[float]] = {name: [] for name in kinds}
    for number in range(runs + 1):
        for name, (arguments, words) in kinds.items():
            run = Run(arguments, home)
            took = run.until(words) - run.begun
            run.end()
            if number:
                times[name].append(took)
    middles = {name: say(name, each) for name, each in times.items()}
    for name in list(kinds)[1:]:
        print(f"  ratio to the bare app, {name}: {middles[name] / middles['bare app']:.2f}")


def key_to_painted(runs: int, folder: Path) -> None:
    print("key to durable and painted")
    middles = {}
    for steps in (50, 1000, 10000):
        design = long_design(folder / f"{steps}.yaml", steps)
        run = Run(["-m", "companion", "follow", str(design)], str(folder / "keys"))
        run.until(b"begin")
        run.press(b"\r")
        run.until(b"strand")
        run.until(b"finishes")
        times = []
        for step in range(2, 2 + 4 * runs):
            pressed = run.press(b" ")
            times.append(run.until(f"{step}".encode()[-1:] + b" of ") - pressed)
        run.end()
        middles[steps] = say(f"{steps} steps", times)
    print(f"  ratio 10,000 to 50 steps: {middles[10000] / middles[50]:.2f}")


def plan_of_a_long_design(runs: int, folder: Path) -> None:
    print("plan of 10,000 steps, layout written out line by line, whole processes")
    design = str(long_design(folder / "plan.yaml", 10000))
    kinds = {
        "yaml.safe_load of the file": ["-c", f"import yaml; yaml.safe_load(open({design!r}))"],
        "the same with the C loader": ["-c", f"import yaml; yaml.load(open({design!r}), Loader=yaml.CSafeLoader)"],
        "companion plan --json": ["-m", "companion", "plan", "--json", design],
        "companion check": ["-m", "companion", "check", design],
    }
    times: dict[str, list[float]] = {name: [] for name in kinds}
    for number in range(runs + 1):
        for name, arguments in kinds.items():
            begun = time.perf_counter()
            subprocess.run([sys.executable, *arguments], cwd=REPO, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            if number:
                times[name].append(time.perf_counter() - begun)
    middles = {name: say(name, each) for name, each in times.items()}
    plan = middles["companion plan --json"]
    for name in list(kinds)[:2]:
        print(f"  ratio of the plan to {name}: {plan / middles[name]:.2f}")


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--runs", type=int, default=7)
    runs = options.parse_args().runs
    with tempfile.TemporaryDirectory() as folder:
        first_frame(runs, Path(folder))
        key_to_painted(runs, Path(folder))
        plan_of_a_long_design(runs, Path(folder))


if __name__ == "__main__":
    main()
