"""Crash trials: keys typed at a random pace into a real pseudo-terminal, `kill -9` at a random moment, then the oracle.

A trial is drawn from its seed and number alone. What was shown is whatever the screen held at any moment, up to the
last byte that the dead program has left in the terminal.
"""

from __future__ import annotations

import errno
import random
import re
import shutil
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from companion.workshop import open_at
from tests.harness import shim
from tests.harness.oracle import Key, Observed, judge
from tests.pseudo_terminal.terminal import Screen, Terminal

DESIGN = """\
format: 1
name: Long light
cord: {name: c, diameter: 1 mm, layers: 1, knots: {single: {take_up: 6 mm, length: 2 mm}}}
beads: {b: {length: 6 mm}}
strand: {layout: [{repeat: 240, of: [b, knot]}]}
"""
STEPS_BEFORE = (0, 0, 6, 120)  # steps done before a trial
REFUSED = "othing was stored"
MOST_KEYS = 100
PROMPT_SECONDS = 1.0  # how long a question is waited for
_STEP = re.compile(r"step (\d+) of \d+")
_READING = "From its first element to here."
_NOTE = "A note at step"
_JUMP = "Up to which step"


@dataclass
class Trial:
    """What came of one trial. `wrong`: a sentence for each fault, none where all is well."""

    number: int
    kind: str
    sent: int = 0
    stored: int = 0
    shown: int = 0
    in_the_middle: bool = False
    refused: int = 0
    wrong: list[str] = field(default_factory=list)


class RecordingScreen(Screen):
    """A screen that keeps every state it has shown: how many steps are made, and the words after an act."""

    def __init__(self, columns: int = 80, lines: int = 24) -> None:
        super().__init__(columns, lines)
        self.states: list[int] = []
        self.said: set[str] = set()

    def feed(self, text: str) -> None:
        super().feed(text)
        if self.y == 0:  # the heading may be half written
            return
        found = _STEP.search("".join(self.cells[0]))
        if found and (not self.states or self.states[-1] != int(found[1]) - 1):
            self.states.append(int(found[1]) - 1)
        shown = self.text
        self.said |= {words for words in ("Noted.", REFUSED, "Traceback") if words in shown}


class OldTerminal(Terminal):
    """A terminal that shows every byte as it comes: of what is half written, too, nothing may be untrue."""

    WHOLE_FRAMES = False


def prepare(folder: Path, with_shim: bool) -> None:
    """What all trials begin from: the design, a home for each of `STEPS_BEFORE`, and the shim."""
    folder.mkdir(parents=True, exist_ok=True)
    design = folder / "long.yaml"
    design.write_text(DESIGN)
    for done in set(STEPS_BEFORE):
        workshop = open_at(folder / f"begun-{done}")
        opened = workshop.start(design)
        workshop.jump(opened, done)
        workshop.close()
    if with_shim:
        shim.build(folder)


def run_trial(folder: Path, number: int, seed: int, with_shim: bool) -> Trial:
    """One trial."""
    draw = random.Random(f"{seed} {number}")
    kind = draw.choice(("delayed", "fails", "half", "dies") if with_shim else ("plain",))
    steps_before = draw.choice((*STEPS_BEFORE, None))
    home = folder / f"trial-{number}"
    if steps_before is not None:
        shutil.copytree(folder / f"begun-{steps_before}", home)
    home.mkdir(exist_ok=True)
    trial = Trial(number, kind)
    control = shim.Control(folder / f"control-{number}") if with_shim else None
    variables = shim.environment(folder / "shim.so", control, home) if control else {}
    variables |= {"TALLYCORD_HOME": str(home), "LANG": "C.UTF-8"}
    run = OldTerminal("follow", folder / "long.yaml", environment=variables)
    run.screen = screen = RecordingScreen()
    try:
        typist = _Typist(draw, run, steps_before, control, kind)
        typist.type_until_the_end()
        run.kill()
    finally:
        run.close()
    trial.sent, trial.shown = len(typist.sent), len(screen.states)
    trial.in_the_middle = any(path.stat().st_size for path in home.glob("*-journal"))
    trial.refused = int(REFUSED in screen.said)
    observed = Observed(steps_before, typist.sent, screen.states, frozenset(screen.said), typist.strict)
    judgement = judge(home, observed)
    trial.stored, trial.wrong = judgement.stored, judgement.wrong
    if control:
        control.file.unlink()
    if not trial.wrong:
        shutil.rmtree(home)
    return trial


class _Typist:
    """Types until the moment comes. `strict`: every key came at a screen that was there to take it."""

    def __init__(
        self, draw: random.Random, run: Terminal, steps_before: int | None, control: shim.Control | None, kind: str
    ) -> None:
        self.draw, self.run, self.steps_before, self.control, self.kind = draw, run, steps_before, control, kind
        self.sent: list[Key] = []
        self.early = draw.random() < 0.2
        self.strict = not self.early and kind in ("plain", "delayed")
        self.gap = draw.choice((0.0, 0.004, 0.02, 0.06))
        self.end = time.monotonic() + draw.uniform(0.0, 1.0)

    def type_until_the_end(self) -> None:
        """Type keys, before the first screen is there or after, until it is time to kill the program."""
        if self.early:
            self._inject()
            self._type(iter(lambda: Key(" "), None))
            return
        self._to_follow_screen()
        self._inject()
        self.end = time.monotonic() + self.draw.uniform(0.0, 0.6 if self.kind == "plain" else 1.0)
        self._type(self._keys())

    def _to_follow_screen(self) -> None:
        self.run.until({None: "Enter begin", 0: "step 1 of"}.get(self.steps_before, "Enter go on"))
        if self.steps_before == 0:
            return
        if self.steps_before is None and self.control:
            self._inject()  # the start of a piece is written under faults as well
        self.run.press("\r")
        if self.control and self.steps_before is None:
            self._until("step 1 of", PROMPT_SECONDS)
        else:
            self.run.until(f"step {(self.steps_before or 0) + 1} of")

    def _inject(self) -> None:
        if self.control is None:
            return
        draw, mode = self.draw, {"fails": shim.FAIL, "half": shim.HALF_THEN_FAIL}.get(self.kind, shim.OFF)
        if self.kind == "dies":
            mode = draw.choice((shim.KILL_BEFORE, shim.KILL_HALF, shim.KILL_AFTER))
        delay_us = draw.choice((500, 2000, 8000)) if self.kind == "delayed" or draw.random() < 0.3 else 0
        error = draw.choice((errno.ENOSPC, errno.EIO))
        at = draw.randint(1, 90)
        self.control.inject(mode, at, error, sticky=draw.random() < 0.4, delay_us=delay_us)

    def _keys(self) -> Iterator[Key]:
        while True:
            chance = self.draw.random()
            if chance < 0.84:
                yield Key(" ")
            elif chance < 0.91:
                yield Key("u")
            elif chance < 0.94:
                yield Key("U")
            elif chance < 0.96:
                yield Key("m", _READING, f"{self.draw.randint(100, 900)}.{len(self.sent):03} mm")
            elif chance < 0.98:
                yield Key("n", _NOTE, f"note {len(self.sent)}")
            else:
                yield Key("j", _JUMP, str(self.draw.randint(0, 150)))

    def _type(self, keys: Iterator[Key]) -> None:
        for key in keys:
            if time.monotonic() >= self.end or self.run.process.poll() is not None or len(self.sent) >= MOST_KEYS:
                break
            self.sent.append(key)
            self._press(key.first)
            if key.prompt and not (self._until(key.prompt, PROMPT_SECONDS) and self._answer(key)):
                return  # the question is not there yet, or there still: what is typed now would be for another screen
            self._read(min(self.end, time.monotonic() + self.draw.expovariate(1 / self.gap) if self.gap else 0))
        self._read(self.end)

    def _answer(self, key: Key) -> bool:
        """Type into the question, twice Enter where it doubts; whether it has gone in time."""
        self._press(key.typed)
        self._until(key.typed, PROMPT_SECONDS)
        self._press("\r")
        end = time.monotonic() + PROMPT_SECONDS
        doubted = False
        while time.monotonic() < end and self.run.process.poll() is None:
            if key.prompt not in self.run.shown:
                return True
            if "Press Enter again" in self.run.shown and not doubted:
                doubted = True
                self._press("\r")
            self.run.read(0.01)
        return False

    def _press(self, text: str) -> None:
        try:
            self.run.press(text)
        except OSError:  # it has ended
            return

    def _read(self, until: float) -> None:
        left = until - time.monotonic()
        if left > 0:
            self.run.read(left)

    def _until(self, words: str, seconds: float) -> bool:
        end = min(self.end + seconds, time.monotonic() + seconds)
        while time.monotonic() < end and self.run.process.poll() is None:
            if words in self.run.shown:
                return True
            self.run.read(0.01)
        return False
