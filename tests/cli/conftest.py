"""Running one command in this process."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from companion.__main__ import main
from companion.cli import printing


@pytest.fixture(autouse=True)
def to_be_read(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whether a run is to be heard is settled once for a process; each test here is a run of its own."""
    monkeypatch.setattr(printing, "_to_be_heard", False)


@dataclass
class Ran:
    code: int
    out: str
    err: str


@pytest.fixture
def tallycord(capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """`tallycord("plan", path)`: its exit code and what it printed."""

    def run(*arguments: object) -> Ran:
        code = main([str(argument) for argument in arguments])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return Ran(code, out, err)

    return run


@pytest.fixture
def strands(patterns: Path) -> Path:
    """A design of three strands."""
    return patterns / "inner-farne-strands.yaml"


@pytest.fixture
def piece(tallycord, skerry) -> str:
    """A Skerry bracelet with 16 of 33 steps done."""
    name = tallycord("start", skerry).out.strip()
    tallycord("jump", name, 16)
    return name


@pytest.fixture
def carded(skerry: Path, tmp_path: Path) -> Path:
    """The Skerry bracelet with a card in place of numbers."""
    text = skerry.read_text(encoding="utf-8")
    numbers = "  knots:\n    single: {take_up: 6 mm, length: 2 mm}\n"
    assert numbers in text
    path = tmp_path / "carded.yaml"
    path.write_text(text.replace(numbers, "  card: skerry silk\n"), encoding="utf-8")
    return path
