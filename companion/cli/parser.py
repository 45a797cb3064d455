"""The command line: what is typed, read by the declarations of the one command that it begins with."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from textwrap import fill
from types import ModuleType
from typing import NoReturn

from companion import __version__
from companion.cli.command_table import COMMANDS, Command
from companion.cli.printing import complain
from companion.core.values.text import capitalised, plain
from companion.workshop import Workshop

Run = Callable[[argparse.Namespace, Workshop], int]
EXAMPLES = """\
examples:
  tallycord plan patterns/skerry-bracelet.yaml    what to cut, and every step
  tallycord follow patterns/skerry-bracelet.yaml  make it, step by step
  tallycord                                       the bench: go on with a piece

Lengths are written with their unit: 9 3/8 in, 23.8 cm, 238 mm.
Exit codes: 0 done; 1 a design, file or piece needs seeing to; 2 wrong usage.
"""


class Help(argparse.RawDescriptionHelpFormatter):
    """The help as wide as the terminal, which is measured once there is help to show: argparse makes one of these for
    each argument that it is told of, and what measures takes as long to load as all of argparse."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=78)

    def format_help(self) -> str:
        from shutil import get_terminal_size

        self._width = get_terminal_size().columns - 2
        return super().format_help()


class Parser(argparse.ArgumentParser):
    """argparse, with nothing typed reaching the terminal unclean."""

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        complain(f"{self.prog}: {plain(message, 400)}")
        raise SystemExit(2)


def parsed(argv: Sequence[str]) -> tuple[Run, argparse.Namespace]:
    """What to run, and with what. Without a command: the bench. Raises SystemExit where the help is all."""
    arguments = parser(argv[0]).parse_args(argv) if argv else argparse.Namespace()
    run: Run = getattr(arguments, "run", None) or _family("follow").run_bench
    return run, arguments


def parser(first: str = "") -> argparse.ArgumentParser:
    """The command line; with a command's name first, only that one is declared, and only its family loaded."""
    top = Parser(
        prog="tallycord",
        description="Follow a design of knotted cord jewellery, bead by bead and knot by knot.\n"
        "Without a command it opens the bench.",
        epilog=EXAMPLES,
        formatter_class=Help,
        allow_abbrev=False,
    )
    top.add_argument("--version", action="version", version=f"tallycord {__version__}")
    commands = top.add_subparsers(prog=top.prog, metavar="COMMAND", title="commands", parser_class=Parser)
    for command in [one for one in COMMANDS if one.name == first] or COMMANDS:
        _declare(command, commands)
    return top


def _declare(command: Command, commands: argparse._SubParsersAction[Parser]) -> None:
    """Add a command: its words from the table, what it takes from its family."""
    family = _family(command.family)
    declared = commands.add_parser(
        command.name,
        help=command.words,
        description=fill(command.about or f"{capitalised(command.words)}.", 78),
        epilog="\n".join(("examples:", *(f"  tallycord {example}" for example in command.examples))),
        formatter_class=Help,
        allow_abbrev=False,
    )
    getattr(family, f"declare_{command.name}")(declared)
    declared.set_defaults(run=getattr(family, f"run_{command.name}"))


def _family(name: str) -> ModuleType:
    """The file of that family: loaded here, and only when it is asked for."""
    return import_module(f"companion.cli.commands.{name}")
