"""The table of commands and the families agree: what is declared can be run, and what can be run is declared."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import pytest

import companion.cli.commands as commands
from companion.cli.command_table import COMMANDS

FAMILIES = sorted(file.stem for file in Path(commands.__file__).parent.glob("*.py") if file.stem != "__init__")


@pytest.mark.parametrize("family", FAMILIES)
def test_a_family_has_what_each_of_its_commands_needs_and_no_more(family) -> None:
    functions = {name for name in vars(import_module(f"companion.cli.commands.{family}")) if name[0] != "_"}
    named = [command.name for command in COMMANDS if command.family == family]
    assert named
    for start in ("declare_", "run_"):
        found = {name.removeprefix(start) for name in functions if name.startswith(start)} - {"bench"}
        assert found == set(named)


def test_every_command_has_examples_that_begin_with_its_name() -> None:
    assert all(example.split()[0] == command.name for command in COMMANDS for example in command.examples)
    assert all(command.examples and command.words for command in COMMANDS)
