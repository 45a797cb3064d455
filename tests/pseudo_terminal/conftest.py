"""Runs of the real program in pseudo-terminals, ended with the test; one test after the other, in one worker."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.pseudo_terminal.terminal import Terminal

HERE = Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.xdist_group("terminal"))


@pytest.fixture
def terminal() -> Iterator[Callable[..., Terminal]]:
    """Start `tallycord` with these arguments in a terminal of that kind and size."""
    opened: list[Terminal] = []

    def start(*arguments: object, kind: type[Terminal] = Terminal, **more: object) -> Terminal:
        opened.append(kind(*arguments, **more))
        return opened[-1]

    yield start
    for run in opened:
        run.close()


@pytest.fixture
def follow(terminal: Callable[..., Terminal], skerry: Path) -> Callable[..., Terminal]:
    """Start a piece of the bracelet in a terminal of that kind and size, and follow it: no step is made yet."""

    def begin(**more: object) -> Terminal:
        run = terminal("follow", skerry, **more)
        run.until("Enter begin")
        run.press("\r")
        run.until("step 1 of 33")
        return run

    return begin
