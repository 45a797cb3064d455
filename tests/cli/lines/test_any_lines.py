"""Whatever is typed at the prompt, it ends in good order, and what is heard of steps is what the journal says."""

from __future__ import annotations

import io
import random
import re
import sys

import pytest

from companion.core.journal.events import Confirmed, Measured, Noted
from companion.workshop import open_at
from tests.examples import LONG

VOCABULARY = (
    "", "", "", "", "", "u", "U", "s", "m", "c", "r", "w", "k", "n", "j", "o", "x", "p", "h", "?", "y", "1", "2", "11",
    "3 3/8", "3 1/16 in", "86", "86 mm", "c 14", "c 9 1/2 in", "c 37 cm", "n a bead is chipped", "n3", "j 16", "j 33",
    "j 0", "j x", "j 34", "o 8", "o 30 cm", "r 6", "finish", "\x1b[A", "⅜", "1e9 mm", "-3", "y " * 50, "0", "ÆØÅ",
)  # fmt: skip


@pytest.mark.parametrize("seed", range(12 if LONG else 4))
def test_any_lines(tallycord, skerry, monkeypatch, seed) -> None:
    draw = random.Random(seed)
    name = tallycord("start", skerry).out.strip()
    heard = ""
    for _ in range(3):  # left and taken up again
        typed = "".join(f"{draw.choice(VOCABULARY)}\n" for _ in range(60))
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(typed.encode()), encoding="utf-8"))
        ran = tallycord("follow", "--lines", "--piece", name)
        assert (ran.code in (0, 1), ran.err) == (True, ran.err)
        assert "went wrong in Tallycord itself" not in ran.out + ran.err
        heard += ran.out
    events = [entry.event for entry in open_at().journal(open_at().open(name))]
    steps = [event.step for event in events if isinstance(event, Confirmed)]
    assert [int(step) for step in re.findall(r"^Step (\d+) done\.$", heard, re.M)] == steps
    readings = re.findall(r"^The (?:strand|leftover cord) measures .+ (?:after|before) .+\.$", heard, re.M)
    assert len(readings) == sum(isinstance(event, Measured) for event in events)
    assert heard.splitlines().count("Noted.") == sum(isinstance(event, Noted) for event in events)
