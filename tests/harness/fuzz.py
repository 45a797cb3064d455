"""Fuzzing with design files that nobody would write, by the commands and in the app: no traceback, no long wait, no
control character on a screen."""

from __future__ import annotations

import asyncio
import contextlib
import io
import os
import random
import resource
import sys
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from companion.cli.main import run as run_command
from companion.tui.app import TallycordApp
from companion.workshop import open_at
from tests.harness.design_files import any_design, valid_design
from tests.tui.toolkit import looks

MOST_SECONDS = 2.0
MOST_MEGABYTES = 300
SIZES = ((80, 24), (80, 24), (60, 18), (120, 40), (200, 60), (20, 5), (1, 1))
KEYS = (
    "space", "space", "space", "enter", "u", "m", "c", "n", "j", "w", "r", "x", "k", "s", "o", "t", "escape", "up",
    "down", "1", "2", "5", "0", "backspace", "slash", "plus", "question_mark", "pagedown", "ctrl+u",
    "colon", "y",
)  # fmt: skip


@dataclass(frozen=True)
class Trial:
    """What came of one trial. `seconds`: of the processor; `waited`: by the clock; `megabytes`: the most that the
    process has held so far; `wrong`: a sentence, "" where all is well."""

    number: int
    seconds: float
    waited: float
    megabytes: float
    outcome: str
    wrong: str = ""


def run_trial(number: int, act: Callable[[], tuple[str, str]], *, limited: bool = True) -> Trial:
    """Run `act`, which gives an outcome and what is wrong with it. `limited`: too long or too large is wrong too."""
    began, waited = time.process_time(), time.monotonic()
    try:
        outcome, wrong = act()
    except Exception:
        outcome, wrong = "traceback", traceback.format_exc(limit=-6)
    seconds, waited = time.process_time() - began, time.monotonic() - waited
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024 if sys.platform != "darwin" else 1024 * 1024)
    if limited and not wrong and seconds > MOST_SECONDS:
        wrong = f"took {seconds:.1f} s"
    if limited and not wrong and most > MOST_MEGABYTES:
        wrong = f"the process holds {most:.0f} MB"
    return Trial(number, seconds, waited, most, outcome, wrong)


def unclean(text: str) -> str:
    """What must not reach a screen, "" where there is nothing."""
    return "".join(sorted({f"U+{ord(c):04X} " for c in text if c not in "\n" and not c.isprintable()}))


def command_on_design(folder: Path, number: int) -> Trial:
    """`tallycord check`, `plan` or `plan --json` on one design."""
    path = folder / f"design-{os.getpid()}.yaml"
    path.write_bytes(any_design(number))
    command = (["check"], ["plan"], ["plan", "--json"])[number % 3]
    return run_trial(number, lambda: command_in_process(folder, [*command, str(path)]))


def command_in_process(folder: Path, arguments: list[str]) -> tuple[str, str]:
    """One command line in this process: its outcome, and what is wrong with it."""
    os.environ |= {"TALLYCORD_HOME": str(folder / f"home-{os.getpid()}"), "TALLYCORD_TRACEBACK": "1"}
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = run_command(arguments)
    wrong = unclean(out.getvalue() + err.getvalue())
    if code not in (0, 1):
        wrong += f"exit code {code}"
    if code and not (err.getvalue() + out.getvalue()).strip():
        wrong += "refused without a word"
    return f"exit code {code}", f"{' '.join(arguments[:-1])}: {wrong}" if wrong else ""


def app_on_design(folder: Path, number: int) -> Trial:
    """The app on one design, right or not: opened, begun, some keys."""
    path = folder / f"design-{os.getpid()}.yaml"
    path.write_bytes(any_design(number) if number % 2 else valid_design(number).encode())
    return run_trial(number, lambda: asyncio.run(_in_app(folder / f"app-{os.getpid()}-{number}", path, number)))


async def _in_app(home: Path, path: Path, number: int) -> tuple[str, str]:
    draw = random.Random(f"app {number}")
    workshop = open_at(home)
    app, wrong = TallycordApp(workshop, design=path), ""
    try:
        async with app.run_test(size=draw.choice(SIZES)) as pilot:
            await pilot.pause()
            for key in ("enter", *draw.choices(KEYS, k=draw.randint(3, 14))):
                await pilot.press(key)
                if app._exit:
                    break
            screen = type(app.screen).__name__
            rows = looks.strips(app)
            wrong = unclean("".join(segment.text for row in rows for segment in row if segment.control is None))
        return screen, wrong
    finally:
        app.close_trial()
        workshop.close()
