"""What is typed: wrong usage, the help of every command, the version."""

from __future__ import annotations

import pytest

from companion import __version__
from companion.cli.command_table import COMMANDS
from tests.cli.running import in_a_shell

NAMES = [command.name for command in COMMANDS]


@pytest.mark.parametrize(
    "arguments",
    [["plan"], ["nosuch"], ["check"], ["next", "a", "b"], ["plan", "x", "--jsn"], ["jump", "x"], ["\x1b[31m"]],
)
def test_wrong_usage_is_exit_2(tallycord, arguments) -> None:
    ran = tallycord(*arguments)
    assert ran.code == 2
    assert ran.out == ""
    assert "\x1b" not in ran.err


@pytest.mark.parametrize("command", ["", *NAMES])
def test_help_prints_in_any_encoding_and_shows_lines_to_type(command) -> None:
    ran = in_a_shell(f"tallycord {command} --help", LC_ALL="C", PYTHONIOENCODING="ascii:strict", PYTHONUTF8="0")
    assert ran.returncode == 0, ran.stderr
    assert f"  tallycord {command or 'plan'} " in ran.stdout or f"  tallycord {command}\n" in ran.stdout
    assert [line for line in ran.stdout.splitlines() if len(line) > 80] == []


@pytest.mark.parametrize("arguments", [["--version"], ["--version", "--version"]])
def test_the_version_is_said(tallycord, arguments) -> None:
    """Alone it takes a way of its own, past the parser."""
    ran = tallycord(*arguments)
    assert (ran.code, ran.out, ran.err) == (0, f"tallycord {__version__}\n", "")
