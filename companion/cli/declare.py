"""How a command is declared: its name, what it does in a few words, examples that can be typed as they stand."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from textwrap import fill
from typing import Any

from companion.workshop import Workshop

Commands = argparse._SubParsersAction
Run = Callable[[argparse.Namespace, Workshop], int]


def declare(
    commands: Commands[Any], name: str, run: Run, words: str, examples: tuple[str, ...], about: str = ""
) -> argparse.ArgumentParser:
    """A command's parser, with `words` in the list of commands and `about` (else the same words) in its own help."""
    parser: argparse.ArgumentParser = commands.add_parser(
        name,
        help=words,
        description=fill(about or f"{words[:1].upper()}{words[1:]}.", 78),
        epilog="\n".join(("examples:", *(f"  companion {example}" for example in examples))),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.set_defaults(run=run)
    return parser


def declare_for_piece(
    commands: Commands[Any], name: str, run: Run, words: str, examples: tuple[str, ...], about: str = ""
) -> argparse.ArgumentParser:
    """The same, for a command whose first word is a piece."""
    parser = declare(commands, name, run, words, examples, about)
    parser.add_argument("piece", metavar="PIECE", help="a piece's name, or how it begins")
    return parser
