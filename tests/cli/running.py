"""The program in a shell of its own, and what several tests look at."""

from __future__ import annotations

import json
import os
import subprocess
import sys
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
