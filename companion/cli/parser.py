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
from companion.cli.printing import complain, in_words, is_told_in_sentences
from companion.cli.whole_lengths import whole_lengths
from companion.core.values.text import capitalised, plain
from companion.workshop import Workshop

Run = Callable[[argparse.Namespace, Workshop], int]
PROGRAM = "tallycord"

# argparse looks for a translation of each of its words, and for that loads `locale`. All other words here are English.
argparse._ = str  # type: ignore[attr-defined]


class Help(argparse.RawDescriptionHelpFormatter):
    """The help as wide as the terminal. argparse makes one of these for each argument that it is told of, and would ask
    `shutil` for the width, which takes as long to load as all of argparse."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=_columns() - 2, max_help_position=28)

    def _format_action_invocation(self, action: argparse.Action) -> str:
        """ "-p, --piece PIECE": what an option takes is named once."""
        if not action.option_strings or action.nargs == 0:
            return super()._format_action_invocation(action)
        takes = self._format_args(action, self._get_default_metavar_for_optional(action))
        return f"{', '.join(action.option_strings)} {takes}"


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


class TopParser(Parser):
    """The whole line: its help is a screen of its own."""

    def format_help(self) -> str:
        """Every command, in its group."""
        from companion.cli.help_screen import help_screen

        return help_screen(_columns(), is_told_in_sentences())


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
        line = line_of(named)
        arguments = line.parse_args(rest)
    else:
        arguments = parser().parse_args(argv) if argv else argparse.Namespace()
    run: Run = getattr(arguments, "run", None) or _family("follow").run_bench
    return run, arguments


def line_of(command: Command) -> CommandParser:
    """The line of that command: only its family is loaded."""
    line = CommandParser(prog=f"{PROGRAM} {command.name}", **_described(command))
    _declare(command, line)
    return line


def parser() -> argparse.ArgumentParser:
    """The whole command line: every command declared."""
    top = TopParser(prog=PROGRAM, usage=f"{PROGRAM} [COMMAND ...]", allow_abbrev=False)
    top.add_argument("--spoken", action="store_true")
    top.add_argument("--version", action="version", version=f"{PROGRAM} {__version__}")
    commands = top.add_subparsers(prog=top.prog, metavar="COMMAND", parser_class=CommandParser)
    for command in COMMANDS:
        _declare(command, commands.add_parser(command.name, **_described(command)))
    return top


def _described(command: Command) -> dict[str, Any]:
    """A command's words in its own help, from the table."""
    return {
        "description": fill(command.about or f"{capitalised(command.words)}.", 78),
        "epilog": "\n".join(("examples:", *(f"  {PROGRAM} {example}" for example in command.examples))),
        "formatter_class": Help,
        "allow_abbrev": False,
        "add_help": False,
    }


def _declare(command: Command, line: argparse.ArgumentParser) -> None:
    """Add what the command takes, which its family knows, and what runs it."""
    family = _family(command.family)
    line._positionals.title = "words"
    line.add_argument("-h", "--help", action="help", help=argparse.SUPPRESS)
    getattr(family, f"declare_{command.name}")(line)
    line.add_argument("--spoken", action="store_true", help=argparse.SUPPRESS)  # it is told of all commands at once
    _shorten_usage(line)
    line.set_defaults(run=getattr(family, f"run_{command.name}"))


def _shorten_usage(line: argparse.ArgumentParser) -> None:
    """Its words, then that there are options: each of them has a line of its own below."""
    words = [_word(action) for action in line._get_positional_actions()]
    options = [one for one in line._get_optional_actions() if one.help is not argparse.SUPPRESS]
    line.usage = " ".join((line.prog, *words, *(["[OPTION ...]"] if options else [])))


def _word(action: argparse.Action) -> str:
    named = str(action.metavar)
    return {"?": f"[{named}]", "*": f"[{named} ...]", "+": f"{named} ..."}.get(str(action.nargs), named)


def _family(name: str) -> ModuleType:
    """The file of that family: loaded here, and only when it is asked for."""
    return import_module(f"companion.cli.commands.{name}")
