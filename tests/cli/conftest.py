"""Running one command in this process."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from companion.__main__ import main


@dataclass
class Ran:
    code: int
    out: str
    err: str


@pytest.fixture
def companion(capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """`companion("plan", path)`: its exit code and what it printed."""

    def run(*arguments: object) -> Ran:
        code = main([str(argument) for argument in arguments])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return Ran(code, out, err)

    return run
