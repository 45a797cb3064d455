"""The help: all commands on one screen, and each command's own on one."""

from __future__ import annotations

import pytest

from companion.cli.command_table import COMMANDS
from companion.cli.help_screen import help_screen, listed

NAMES = [command.name for command in COMMANDS]
ROWS = 23  # of 24: the shell asks for the next line below it


def test_every_command_is_listed_once() -> None:
    assert sorted([*listed(), "back"]) == sorted(NAMES)  # back: the same as undo


def test_help_is_understood_as_a_word_too(tallycord) -> None:
    assert tallycord("help") == tallycord("--help")
    assert tallycord("help", "measure") == tallycord("measure", "--help")


def test_all_of_it_is_seen_at_once(tallycord) -> None:
    lines = tallycord("--help").out.splitlines()
    assert len(lines) <= ROWS
    assert max(map(len, lines)) < 80


@pytest.mark.parametrize("columns", [40, 60, 79, 80, 200])
def test_columns_never_touch_and_fit(columns) -> None:
    lines = help_screen(columns, spoken=False).splitlines()
    assert all("  " in line[30:41] for line in lines[2:20]) or columns < 79
    assert max(map(len, lines)) <= max(columns - 1, 76)


@pytest.mark.parametrize("name", NAMES)
def test_a_command_explains_itself_on_one_screen(tallycord, name) -> None:
    lines = tallycord(name, "--help").out.splitlines()
    assert len(lines) <= ROWS
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("how", [("--spoken",), ()])
def test_to_be_heard_each_command_is_a_sentence(tallycord, monkeypatch, how) -> None:
    monkeypatch.setenv("TERM", "xterm" if how else "dumb")
    lines = tallycord("--help", *how).out.splitlines()
    assert all(line.endswith(".") and not line.startswith(" ") and "  " not in line for line in lines)
    assert "tallycord measure: " in "\n".join(lines)
    told = [line.split(" ")[1].rstrip(":") for line in lines if line.startswith("tallycord ") and ": " in line]
    assert sorted([*told, "back"]) == sorted(NAMES)


def test_nor_are_the_knots_a_table_then(tallycord, monkeypatch) -> None:
    assert "\nhalf hitch  " in tallycord("knots").out
    monkeypatch.setenv("TERM", "dumb")
    lines = tallycord("knots").out.splitlines()
    assert lines[0] == "Single knot: the knot between beads, wherever it is wider than the bead's hole."
    assert all(line.endswith(".") and "  " not in line for line in lines)
