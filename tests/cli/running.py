"""The program in a shell of its own, and what several tests look at."""

from __future__ import annotations

import json
import os
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

REPO = Path(__file__).parents[2]


def in_a_shell(line: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """The line with `tallycord` standing for the real program, in a shell of its own."""
    program = f'tallycord() {{ "{sys.executable}" -m companion "$@"; }}\n'
    return subprocess.run(
        ["bash", "-c", program + line], cwd=REPO, env={**os.environ, **environment},
        stdin=subprocess.DEVNULL, capture_output=True, text=True,
    )  # fmt: skip


def steps_made(tallycord) -> tuple[int, int, str]:
    (piece,) = json.loads(tallycord("pieces", "--json").out)["pieces"]
    assert set(piece) == {"piece", "name", "steps_done", "steps_total", "state"}
    return piece["steps_done"], piece["steps_total"], piece["state"]


def journal(tallycord, name: str) -> list[str]:
    """What happened, without the times."""
    return [line.split("  ", 1)[1] for line in tallycord("journal", name).out.splitlines()]


class Talk:
    """`tallycord follow … --lines` through pipes: what is typed, and what is heard."""

    GIVE_UP_SECONDS = 30.0

    def __init__(self, *arguments: object, **environment: str) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "companion", *map(str, arguments)], cwd=REPO, env={**os.environ, **environment},
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        )  # fmt: skip
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self._typed, self._heard = self.process.stdin, self.process.stdout
        self.heard = ""  # since the latest line was typed

    def type(self, *lines: str) -> None:
        """Type these lines, and Enter after each."""
        self.heard = ""
        self._typed.write("".join(f"{line}\n" for line in lines).encode())
        self._typed.flush()

    def until(self, words: str) -> str:
        """Listen until these words are heard, to the end of their line; all that was heard since the latest line."""
        end = time.monotonic() + self.GIVE_UP_SECONDS
        while words not in self.heard or "\n" not in self.heard.split(words, 1)[1]:
            assert time.monotonic() < end, f"never heard {words!r}, but:\n{self.heard}"
            if select.select([self._heard], [], [], 0.1)[0]:
                data = os.read(self._heard.fileno(), 65536)
                assert data, f"ended without {words!r}, but:\n{self.heard}\n{self.errors()}"
                self.heard += data.decode()
        return self.heard

    def say(self, line: str, words: str) -> str:
        """Type a line, and listen for these words."""
        self.type(line)
        return self.until(words)

    def errors(self) -> str:
        """What went to stderr of a run that has ended."""
        assert self.process.stderr is not None
        return self.process.stderr.read().decode()

    def end(self) -> tuple[int, str]:
        """End the input; the exit code, and all that is heard after the latest line."""
        out, _ = self.process.communicate(timeout=self.GIVE_UP_SECONDS)
        self.heard += out.decode()
        return self.process.returncode, self.heard

    def kill(self, number: int = signal.SIGKILL) -> int:
        """End it with a signal; its exit code."""
        self.process.send_signal(number)
        return self.end()[0]
