"""Rounds in a real pseudo-terminal: keys at a random pace, the companion killed at a random moment, then accounts.

A round is drawn from its number alone. What was shown is what the screen held at any look, up to the last byte that the
dead program has left in the terminal.
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
from tests.harness.accounts import Key, accounts
from tests.terminal import Screen, Terminal

DESIGN = """\
format: 1
name: Long light
cord: {name: c, diameter: 1 mm, layers: 1, knots: {single: {take_up: 6 mm, length: 2 mm}}}
beads: {b: {length: 6 mm}}
strand: {layout: [{repeat: 240, of: [b, knot]}]}
"""
BEGUN = (0, 0, 6, 120)  # steps that are made before a round
_STEP = re.compile(r"step (\d+) of \d+")
_READING = "From its first element to here."
_NOTE = "A note at step"
_JUMP = "Up to which step"


@dataclass
class Round:
    """What came of one round. `wrong`: sentences, none where all is well."""

    number: int
    kind: str
    sent: int = 0
    stored: int = 0
    shown: int = 0
    in_the_middle: bool = False
    refused: int = 0
    wrong: list[str] = field(default_factory=list)


class Watch(Screen):
    """A screen that keeps every state it has shown: how many steps are made, and the words after a deed."""

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
        self.said |= {words for words in ("Noted.", "othing was stored", "Traceback") if words in shown}


def prepare(folder: Path, with_shim: bool) -> None:
    """What all rounds begin from: the design, a home for each of `BEGUN`, and the shim."""
    folder.mkdir(parents=True, exist_ok=True)
    design = folder / "long.yaml"
    design.write_text(DESIGN)
    for done in set(BEGUN):
        workshop = open_at(folder / f"begun-{done}")
        opened = workshop.start(design)
        workshop.jump(opened, done)
        workshop.close()
    if with_shim:
        shim.build(folder)


def play(folder: Path, number: int, seed: int, with_shim: bool) -> Round:
    """One round."""
    draw = random.Random(f"{seed} {number}")
    kind = draw.choice(("delayed", "fails", "half", "dies") if with_shim else ("plain",))
    began = draw.choice((*BEGUN, None))
    home = folder / f"round-{number}"
    if began is not None:
        shutil.copytree(folder / f"begun-{began}", home)
    home.mkdir(exist_ok=True)
    result = Round(number, kind)
    control = shim.Control(folder / f"control-{number}") if with_shim else None
    layer = shim.environment(folder / "shim.so", control, home) if control else {}
    run = Terminal(
        "follow", folder / "long.yaml", environment={"COMPANION_HOME": str(home), "LANG": "C.UTF-8", **layer}
    )
    run.screen = watch = Watch()
    try:
        keys = _Hand(draw, run, began, control, kind)
        keys.opened()
        run.kill()
    finally:
        run.close()
    result.sent, result.shown = len(keys.sent), len(watch.states)
    result.in_the_middle = any(path.stat().st_size for path in home.glob("*-journal"))
    result.refused = int("othing was stored" in watch.said)
    told = accounts(home, began, keys.sent, watch.states, watch.said, strict=keys.strict)
    result.stored, result.wrong = told.stored, told.wrong
    if control:
        control.file.unlink()
    if not result.wrong:
        shutil.rmtree(home)
    return result


class _Hand:
    """Types until the moment comes. `strict`: every key came at a screen that was there to take it."""

    def __init__(
        self, draw: random.Random, run: Terminal, began: int | None, control: shim.Control | None, kind: str
    ) -> None:
        self.draw, self.run, self.began, self.control, self.kind = draw, run, began, control, kind
        self.sent: list[Key] = []
        early = draw.random() < 0.2
        self.strict = not early and kind in ("plain", "delayed")
        self.early = early
        self.gap = draw.choice((0.0, 0.004, 0.02, 0.06))
        self.end = time.monotonic() + draw.uniform(0.0, 1.0)

    def opened(self) -> None:
        if self.early:
            self._arm()
            self._type(iter(lambda: Key(" "), None))
            return
        self._reach()
        self._arm()
        self.end = time.monotonic() + self.draw.uniform(0.0, 0.6 if self.kind == "plain" else 1.0)
        self._type(self._keys())

    def _reach(self) -> None:
        """Up to the follow screen."""
        words = {None: "Enter begin", 0: "step 1 of"}.get(self.began, "Enter go on")
        self.run.until(words)
        if self.began != 0:
            if self.began is None and self.control:
                self._arm()  # the start of a piece is written under faults as well
            self.run.press("\r")
            if self.control and self.began is None:
                self._until("step 1 of", 1.0)
            else:
                self.run.until(f"step {(self.began or 0) + 1} of")

    def _arm(self) -> None:
        if self.control is None:
            return
        draw, mode = self.draw, {"fails": shim.FAIL, "half": shim.HALF_THEN_FAIL}.get(self.kind, shim.OFF)
        if self.kind == "dies":
            mode = draw.choice((shim.KILL_BEFORE, shim.KILL_HALF, shim.KILL_AFTER))
        delay = draw.choice((500, 2000, 8000)) if self.kind == "delayed" or draw.random() < 0.3 else 0
        error = draw.choice((errno.ENOSPC, errno.EIO))
        self.control.tell(mode, draw.randint(1, 90), error, draw.random() < 0.4, delay)

    def _keys(self) -> Iterator[Key]:
        while True:
            what = self.draw.random()
            if what < 0.86:
                yield Key(" ")
            elif what < 0.94:
                yield Key("u")
            elif what < 0.96:
                yield Key("m", _READING, f"{self.draw.randint(100, 900)}.{len(self.sent):03} mm")
            elif what < 0.98:
                yield Key("n", _NOTE, f"note {len(self.sent)}")
            else:
                yield Key("j", _JUMP, str(self.draw.randint(0, 150)))

    def _type(self, keys: Iterator[Key]) -> None:
        for key in keys:
            if time.monotonic() >= self.end or self.run.process.poll() is not None or len(self.sent) >= 100:
                break
            self.sent.append(key)
            self._press(key.first)
            if key.prompt and self._until(key.prompt, 1.0):
                self._press(key.typed)
                self._until(key.typed, 1.0)
                self._press("\r")
                self._gone(key.prompt)
            elif key.prompt:
                return  # the question has not come yet: what is typed now would be for another screen
            self._read(min(self.end, time.monotonic() + self.draw.expovariate(1 / self.gap) if self.gap else 0))
        self._read(self.end)

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
            if words in " ".join(self.run.screen.text.split()):
                return True
            self.run.read(0.01)
        return False

    def _gone(self, words: str) -> None:
        """Until the question is answered; a doubt is answered once more."""
        end = time.monotonic() + 1.0
        doubted = False
        while time.monotonic() < end and self.run.process.poll() is None:
            shown = " ".join(self.run.screen.text.split())
            if words not in shown:
                return
            if "Enter once more" in shown and not doubted:
                doubted = True
                self._press("\r")
            self.run.read(0.01)
