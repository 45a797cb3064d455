"""Without a terminal that can draw, the app points to the line commands."""

from __future__ import annotations

import os
import pty
import subprocess
import sys

import pytest

from tests.cli.running import REPO, in_a_shell


@pytest.mark.parametrize("command", [["follow", "patterns/skerry-bracelet.yaml"], []])
def test_without_a_terminal_the_app_points_to_the_line_commands(data_folder, command) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "companion", *command],
        stdin=subprocess.DEVNULL, capture_output=True, text=True, cwd=REPO,
    )  # fmt: skip
    assert run.returncode == 1
    assert "tallycord start" in run.stderr
    assert run.stdout == ""
    assert not data_folder.exists()


@pytest.mark.parametrize("term", ["dumb", ""])
@pytest.mark.parametrize("command", [["follow", "patterns/skerry-bracelet.yaml"], []])
def test_a_terminal_that_cannot_draw_is_told_the_same(data_folder, command, term) -> None:
    """A real terminal this time, so that only what it says of itself can be the reason."""
    master, slave = pty.openpty()
    run = subprocess.run(
        [sys.executable, "-m", "companion", *command],
        stdin=slave, stdout=slave, stderr=subprocess.PIPE, text=True, cwd=REPO, env={**os.environ, "TERM": term},
    )  # fmt: skip
    os.close(slave)
    os.close(master)
    assert run.returncode == 1
    assert "tallycord start" in run.stderr
    assert not data_folder.exists()


def test_a_closed_input_is_no_terminal() -> None:
    ran = in_a_shell("tallycord follow patterns/skerry-bracelet.yaml <&-")
    assert ran.returncode == 1
    assert "tallycord start" in ran.stderr
