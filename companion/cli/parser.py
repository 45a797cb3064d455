"""The command line: what is typed, read by the declarations of the one command that it begins with."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from importlib import import_module
from textwrap import fill
from types import ModuleType
from typing import Any, NoReturn

from companion import __version__
from companion.cli.command_table import COMMANDS, Command
from companion.cli.printing import complain, in_words
from companion.cli.whole_lengths import whole_lengths
from companion.core.values.text import capitalised, plain
from companion.workshop import Workshop

Run = Callable[[argparse.Namespace, Workshop], int]
PROGRAM = "tallycord"
EXAMPLES = """\
examples:
  tallycord plan patterns/skerry-bracelet.yaml    what to cut, and every step
  tallycord follow patterns/skerry-bracelet.yaml  make it, step by step
  tallycord                                       the bench: go on with a piece

Write lengths with their unit: 9 3/8 in, 23.8 cm, 238 mm.
For a piece, a bare number is in the piece's own unit.
A command that takes a piece takes the latest if you name none, and says which.
For listening: --spoken, or TALLYCORD_SPOKEN=1, puts marks into words.
Exit codes: 0 done; 1 a design, file or piece needs attention; 2 wrong usage.
"""


# argparse looks for a translation of each of its words, and for that loads `locale`. All other words here are English.
argparse._ = str  # type: ignore[attr-defined]


class Help(argparse.RawDescriptionHelpFormatter):
    """The help as wide as the terminal. argparse makes one of these for each argument that it is told of, and would ask
    `shutil` for the width, which takes as long to load as all of argparse."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=_columns() - 2)


def _columns() -> int:
    """Of the terminal, as `shutil.get_terminal_size` finds them."""
    columns = 0
    with suppress(KeyError, ValueError):
        columns = int(os.environ["COLUMNS"])
    if columns <= 0 and sys.__stdout__ is not None:
        with suppress(OSError, ValueError):
            columns = os.get_terminal_size(sys.__stdout__.fileno()).columns
    return columns if columns > 0 else 80


class Parser(argparse.ArgumentParser):
    """argparse, with nothing typed reaching the terminal unclean."""

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        complain(f"{self.prog}: {plain(message, 400)}")
        raise SystemExit(2)

    def _print_message(self, message: str, file: Any = None) -> None:
        super()._print_message(in_words(message), file)


class CommandParser(Parser):
    """The line of one command: its options may stand before, between and after its words."""

    _mixed = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """As argparse has it, but words and options in any order."""
        if not self._mixed:
            args = whole_lengths(args, self._lengths())
        if self._mixed or not any(text.startswith("-") for text in args):  # of words alone there is nothing to mix
            return super().parse_known_args(args, namespace)
        self._mixed = True  # what mixes them comes back here, once for the options and once for the words
        try:
            return self.parse_known_intermixed_args(args, namespace)
        finally:
            self._mixed = False

    def _lengths(self) -> set[str]:
        """The options that take a length."""
        return {name for one in self._actions if one.metavar == "LENGTH" for name in one.option_strings}


def parsed(argv: Sequence[str]) -> tuple[Run, argparse.Namespace]:
    """What to run, and with what. Without a command: the bench. Raises SystemExit where the help is all.

    A line that begins with a command's name is read by that command alone: only its family is loaded.
    """
    first, *rest = argv or ("",)
    named = next((command for command in COMMANDS if command.name == first), None)
    if named:
        line = CommandParser(prog=f"{PROGRAM} {named.name}", **_described(named))
        _declare(named, line)
        arguments = line.parse_args(rest)
    else:
        arguments = parser().parse_args(argv) if argv else argparse.Namespace()
    run: Run = getattr(arguments, "run", None) or _family("follow").run_bench
    return run, arguments


def parser() -> argparse.ArgumentParser:
    """The whole command line: every command declared."""
    top = Parser(
        prog=PROGRAM,
        description="Follow a design of knotted cord jewellery, bead by bead and knot by knot.\n"
        "Without a command it opens the bench.",
        epilog=EXAMPLES,
        formatter_class=Help,
        allow_abbrev=False,
    )
    _add_spoken(top)
    top.add_argument("--version", action="version", version=f"{PROGRAM} {__version__}")
    commands = top.add_subparsers(prog=top.prog, metavar="COMMAND", title="commands", parser_class=CommandParser)
    for command in COMMANDS:
        _declare(command, commands.add_parser(command.name, help=command.words, **_described(command)))
    return top


def _described(command: Command) -> dict[str, Any]:
    """A command's words in its own help, from the table."""
    return {
        "description": fill(command.about or f"{capitalised(command.words)}.", 78),
        "epilog": "\n".join(("examples:", *(f"  {PROGRAM} {example}" for example in command.examples))),
        "formatter_class": Help,
        "allow_abbrev": False,
    }


def _declare(command: Command, line: argparse.ArgumentParser) -> None:
    """Add what the command takes, which its family knows, and what runs it."""
    family = _family(command.family)
    getattr(family, f"declare_{command.name}")(line)
    _add_spoken(line)
    line.set_defaults(run=getattr(family, f"run_{command.name}"))


def _add_spoken(command: argparse.ArgumentParser) -> None:
    command.add_argument("--spoken", action="store_true", help="write marks and fractions as words, for listening")


def _family(name: str) -> ModuleType:
    """The file of that family: loaded here, and only when it is asked for."""
    return import_module(f"companion.cli.commands.{name}")
