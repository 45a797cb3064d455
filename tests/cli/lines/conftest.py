"""Runs of the real program through pipes, ended with the test."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.cli.running import Talk


@pytest.fixture
def talk() -> Iterator[Callable[..., Talk]]:
    """Start `tallycord` with these arguments, and talk to it."""
    begun: list[Talk] = []

    def start(*arguments: object, **environment: str) -> Talk:
        begun.append(Talk(*arguments, **environment))
        return begun[-1]

    yield start
    for run in begun:
        if run.process.poll() is None:
            run.process.kill()
            run.process.communicate()


@pytest.fixture
def begun(talk, skerry) -> Talk:
    """A Skerry bracelet at the prompt, its first step to come."""
    run = talk("follow", skerry, "--lines")
    run.until("How long is the cord you cut")
    run.say("", "Next: Stretch the silk")
    return run
