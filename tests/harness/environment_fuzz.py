"""Fuzzing with environment variables and file names that hold rubbish, by the real command: words for the maker, never
a traceback, never a control character that came from outside."""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from pathlib import Path

from tests.harness.fuzz import Trial, unclean
from tests.pseudo_terminal.terminal import Terminal

REPO = Path(__file__).parents[2]
SKERRY = REPO / "patterns" / "skerry-bracelet.yaml"
GIVE_UP_SECONDS = 20
VALUES = (
    "", " ", "~", ".", "..", "/", "relative/folder", "/dev/null", "/dev/null/below", "/proc/nowhere",
    "\x1b[2J\x1b]0;gone\x07", "a\nb", "\u202egnp", "x" * 5000, "/" + "x/" * 2000, "[red]x[/red]", "%s%n", "é",
    "\udcff\udcfe", "-1", "0", "1", "99999999999999999999", "1e9", "nan", "C", "POSIX", "tr_TR.UTF-8", "xx_YY.junk",
    "en_GB.ISO-8859-1", "ja_JP.SJIS", "dumb", "xterm", "unknown-terminal", "vt52", "utf-16", "ascii:strict", "UTC",
    "Nowhere/None", ":/../../etc/passwd",
)  # fmt: skip
NAMES = (
    "TALLYCORD_HOME", "TALLYCORD_COLOURS", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME",
    "XDG_RUNTIME_DIR", "HOME", "LANG", "LC_ALL", "LC_CTYPE", "LANGUAGE", "TERM", "COLORTERM", "COLUMNS", "LINES",
    "NO_COLOR", "FORCE_COLOR", "TZ", "TMPDIR", "USER", "TEXTUAL", "TEXTUAL_ANIMATIONS", "TEXTUAL_FPS", "PAGER",
    "EDITOR",
)  # fmt: skip
FILES = (
    "plain.yaml", "\x1b[2J\x1b]0;gone\x07.yaml", "a\nb\rc.yaml", "\u202elmay.txt", "[red]x[b].yaml", "-h", "--json",
    "x" * 250, "\udcff\udcfe.yaml", "e" + "\u0301" * 60, "\u200b\u2066", "漢字.yaml", "$(touch gone)`.yaml",
    "%s%n.yaml", " ",
)  # fmt: skip


def random_environment(number: int, folder: Path) -> tuple[dict[str, str], Path]:
    """Environment variables, and a design in a file of some name, in a folder of its own."""
    draw = random.Random(f"environment {number}")
    home = folder / f"environment-{number}"
    home.mkdir()
    variables = {name: value for name, value in os.environ.items() if name in ("PATH", "LD_LIBRARY_PATH")}
    variables |= {"HOME": str(home), "TALLYCORD_HOME": str(home / "pieces"), "PYTHONPATH": str(REPO)}
    variables |= {"PYTHONDONTWRITEBYTECODE": "1"}
    for name in draw.sample(NAMES, draw.randint(1, 6)):
        if draw.random() < 0.1:
            variables.pop(name, None)
        else:
            variables[name] = draw.choice(VALUES)
    file = home / draw.choice(FILES)
    file.write_bytes(SKERRY.read_bytes())
    return variables, file


def command(folder: Path, number: int) -> Trial:
    """One command as a process of its own, its output a pipe."""
    variables, file = random_environment(number, folder)
    draw = random.Random(f"command {number}")
    given: list[str] = draw.choice(
        (
            ["plan", "--", str(file)], ["check", "--", str(file)], ["start", "--", str(file)], ["follow", str(file)],
            ["plan", file.name], ["check", "--", file.name], ["pieces"], ["status"], [], ["next", draw.choice(VALUES)],
            ["journal", draw.choice(VALUES)], ["note", draw.choice(VALUES)], draw.choices(VALUES, k=2),
        )
    )  # fmt: skip
    given = [word.replace("\0", "") for word in given]
    began = time.monotonic()
    try:
        ran = subprocess.run(
            [sys.executable, "-m", "companion", *given],
            cwd=file.parent, env=variables, stdin=subprocess.DEVNULL, capture_output=True, timeout=GIVE_UP_SECONDS,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return Trial(number, 0, GIVE_UP_SECONDS, 0, "hang", f"{given} with {variables}: no end")
    return _judged(number, ran.returncode, ran.stdout + ran.stderr, began, f"{given} with {variables}")


def _judged(number: int, code: int, raw: bytes, began: float, told: str) -> Trial:
    text, wrong = raw.decode("utf-8", "replace"), ""
    if code not in (0, 1, 2):
        wrong = f"exit code {code}"
    for sign in ("Traceback", "Something went wrong in Tallycord itself"):
        if sign in text:
            wrong = f"{sign}: …{text[-600:]}"
    wrong = wrong or unclean(text.replace("\ufffd", ""))
    return Trial(number, 0, time.monotonic() - began, 0, f"exit code {code}", f"{told}: {wrong}" if wrong else "")


def app(folder: Path, number: int) -> Trial:
    """The app in a pseudo-terminal, begun and left."""
    variables, file = random_environment(number, folder)
    began = time.monotonic()
    run = Terminal("follow", "--", file, environment=variables)
    try:
        end = time.monotonic() + GIVE_UP_SECONDS
        while run.process.poll() is None and "Enter begin" not in run.screen.text and time.monotonic() < end:
            run.read(0.1)
        shown = run.screen.text
        if run.process.poll() is None and "Enter begin" not in shown:
            return Trial(number, 0, GIVE_UP_SECONDS, 0, "hang", f"never begun with {variables}: {shown}")
        run.press("\x1b")
        run.read(0.2)
        code = run.process.poll()
        if code is None:
            run.press("q")
            run.kill(15)
            code = 0
        return _judged(
            number, code, (shown + run.screen.text).encode("utf-8", "replace"), began, f"app with {variables}"
        )
    finally:
        run.close()
