"""The real program in a real pseudo-terminal, its screen rebuilt from what it writes."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

REPO = Path(__file__).parents[2]
GIVE_UP_SECONDS = 30.0
# Whole frames, as terminals of today show them: the program asks whether the terminal can, and marks each frame.
FRAMES_ASKED, FRAMES_ANSWERED = "\x1b[?2026$p", "\x1b[?2026;2$y"
FRAME_BEGINS, FRAME_ENDS = "\x1b[?2026h", "\x1b[?2026l"


class Screen:
    """Just enough of a terminal: text, cursor moves, clearing; everything else is passed over."""

    _SEQUENCE = r"\x1b(?:\[[?<>=]?[\d;:]*[ !$'\"]*[@-~]|[\]P_^].*?(?:\x07|\x1b\\)|[()].|[^\[\]P_^()])"
    _WHOLE = re.compile(_SEQUENCE, re.S)
    _TOKEN = re.compile(rf"{_SEQUENCE}|[\x00-\x1f]|[^\x00-\x1f]+", re.S)
    _CONTROL = re.compile(r"\x1b\[([?<>=]?)([\d;:]*)([@-~])")

    def __init__(self, columns: int, lines: int) -> None:
        self.columns, self.lines = columns, lines
        self.cells = [[" "] * columns for _ in range(lines)]
        self.x = self.y = 0
        self.pending = ""

    def feed(self, text: str) -> None:
        text = self.pending + text
        cut = text.rfind("\x1b")
        if cut < 0 or self._WHOLE.match(text, cut):
            cut = len(text)  # else a sequence is not all there yet
        frame = text.rfind(FRAME_BEGINS, 0, cut)
        if frame >= 0 and FRAME_ENDS not in text[frame:cut]:
            cut = frame
        text, self.pending = text[:cut], text[cut:]
        for match in self._TOKEN.finditer(text):
            self._take(match.group())

    def _take(self, token: str) -> None:
        control = self._CONTROL.fullmatch(token)
        if control:
            if not control.group(1):
                self._control(control.group(2), control.group(3))
        elif token == "\r":
            self.x = 0
        elif token == "\n":
            self.y = min(self.y + 1, self.lines - 1)
        elif token == "\b":
            self.x = max(0, self.x - 1)
        elif token[0] >= " ":
            for character in token:
                if self.x < self.columns and self.y < self.lines:
                    self.cells[self.y][self.x] = character
                self.x += 1

    def _control(self, numbers: str, final: str) -> None:
        values = [int(value) if value else 0 for value in re.split("[;:]", numbers)] if numbers else [0]
        first = values[0]
        if final in "Hf":
            self.y = max(0, first - 1)
            self.x = max(0, (values[1] if len(values) > 1 else 1) - 1)
        elif final == "G":
            self.x = max(0, first - 1)
        elif final in "ABCD":
            step = max(1, first)
            self.y += {"A": -step, "B": step}.get(final, 0)
            self.x += {"C": step, "D": -step}.get(final, 0)
            self.x, self.y = max(0, self.x), max(0, min(self.y, self.lines - 1))
        elif final == "J" and first == 2:
            self.cells = [[" "] * self.columns for _ in range(self.lines)]
        elif final == "K" and self.y < self.lines:
            self.cells[self.y][self.x :] = [" "] * max(0, self.columns - self.x)

    @property
    def text(self) -> str:
        return "\n".join("".join(row).rstrip() for row in self.cells)


class Terminal:
    """One run of `tallycord` in a pseudo-terminal."""

    WHOLE_FRAMES = True
    PROGRAM = (sys.executable, "-m", "companion")

    def __init__(
        self,
        *arguments: object,
        columns: int = 80,
        lines: int = 24,
        controlling: bool = True,
        environment: dict[str, str] | None = None,
    ) -> None:
        self.screen = Screen(columns, lines)
        self.before = ""  # what was shown when the latest keys were typed
        self.master, slave = pty.openpty()
        self.name = os.ttyname(slave)
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        variables = {**os.environ, "TERM": "xterm-256color", "COLORTERM": "truecolor", "PYTHONPATH": str(REPO)}
        variables |= {"TALLYCORD_KEY_BOUNCE": "0", **(environment or {})}  # a script types faster than a hand
        self.process = subprocess.Popen(
            [*self.PROGRAM, *map(str, arguments)],
            stdin=slave, stdout=slave, stderr=slave, cwd=REPO, env=variables, start_new_session=True,
            preexec_fn=(lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0)) if controlling else None,
        )  # fmt: skip
        os.close(slave)

    def read(self, seconds: float = 0.05) -> None:
        """Take in what the program has written within that time."""
        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            if not select.select([self.master], [], [], left)[0] or not self._take():
                return

    def _take(self) -> bool:
        """Take in what can be read now; whether there was anything."""
        try:
            data = os.read(self.master, 65536)
        except OSError:
            return False
        text = data.decode("utf-8", "replace")
        self.screen.feed(text)
        if self.WHOLE_FRAMES and FRAMES_ASKED in text:
            os.write(self.master, FRAMES_ANSWERED.encode())
        return bool(data)

    @property
    def shown(self) -> str:
        """The words on the screen, wherever its lines break."""
        return " ".join(self.screen.text.split())

    def until(self, words: str) -> str:
        """Read until those words are on the screen: words that the latest keys have brought there."""
        assert words not in self.before, f"{words!r} was there before the keys were typed: it tells nothing of them"
        return self.wait_for(words)

    def wait_for(self, words: str) -> str:
        """Read until those words are on the screen, if only because they were there all along."""
        end = time.monotonic() + GIVE_UP_SECONDS
        while words not in self.shown:
            assert time.monotonic() < end, f"never saw {words!r}; the screen is:\n{self.screen.text}"
            assert self.process.poll() is None or self._drained(words), f"ended; the screen is:\n{self.screen.text}"
            self.read()
        return self.screen.text

    def leave(self, words: str, keys: str = "\x1b") -> str:
        """Close the dialog that shows those words by those keys: once it is there, and until it is gone.

        Keys typed while it is still there would be the dialog's; Escape and a key that arrive as one are Alt and that
        key, whatever was meant.
        """
        self.wait_for(words)
        self.press(keys)
        return self.until_gone(words)

    def quit_from_the_bench(self) -> int:
        """Leave Tallycord; its exit code. Twice: soon after it comes up the bench takes the first for one too many."""
        self.press("qq")
        return self.wait()

    def until_gone(self, words: str) -> str:
        """Read until those words are not on the screen."""
        end = time.monotonic() + GIVE_UP_SECONDS
        while words in self.shown:
            assert time.monotonic() < end, f"still there: {words!r}; the screen is:\n{self.screen.text}"
            self.read()
        return self.screen.text

    def _drained(self, words: str) -> bool:
        self.read()
        return words in self.shown

    def press(self, keys: str) -> None:
        """Type."""
        while select.select([self.master], [], [], 0)[0] and self._take():
            pass
        self.before = self.shown
        os.write(self.master, keys.encode())

    def kill(self, number: int = signal.SIGKILL) -> int:
        """End it with a signal; its exit code."""
        self.process.send_signal(number)
        return self.wait()

    def wait(self) -> int:
        """Read on until it ends; its exit code."""
        end = time.monotonic() + GIVE_UP_SECONDS
        while self.process.poll() is None:
            assert time.monotonic() < end, f"never ended; the screen is:\n{self.screen.text}"
            self.read()
        self.read()
        return self.process.returncode

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        os.close(self.master)


class UnderShell(Terminal):
    """The same, begun by something that waits for it as a shell with jobs does: `stopped>` while it is set aside, and
    any line typed there brings it back."""

    PROGRAM = (
        sys.executable,
        "-c",
        """
import os, signal, sys
signal.signal(signal.SIGTTOU, signal.SIG_IGN)
child = os.fork()
if not child:
    os.setpgid(0, 0)
    os.tcsetpgrp(0, os.getpid())
    signal.signal(signal.SIGTTOU, signal.SIG_DFL)
    os.execv(sys.executable, [sys.executable, "-m", "companion", *sys.argv[1:]])
while True:
    _, status = os.waitpid(child, os.WUNTRACED)
    if not os.WIFSTOPPED(status):
        sys.exit(os.waitstatus_to_exitcode(status))
    os.tcsetpgrp(0, os.getpgrp())
    os.write(1, b"stopped> ")
    sys.stdin.readline()
    os.tcsetpgrp(0, child)
    os.killpg(child, signal.SIGCONT)
""",
    )

    def signal(self, number: int) -> None:
        """Send a signal to what is in front."""
        os.killpg(os.tcgetpgrp(self.master), number)

    def bring_back(self) -> None:
        """Type `fg`, and wait until every key is Tallycord's again: what is on the screen may be from before."""
        self.press("fg\n")
        end = time.monotonic() + GIVE_UP_SECONDS
        while termios.tcgetattr(self.master)[3] & termios.ICANON:
            assert time.monotonic() < end, f"never came back; the screen is:\n{self.screen.text}"
            self.read()
