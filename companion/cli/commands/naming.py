"""rename: another name for a piece."""

from __future__ import annotations

import argparse

from companion.cli.arguments import Wrong, add_piece
from companion.cli.printing import say
from companion.core.journal.names import name_fault
from companion.core.values.text import plain
from companion.workshop import Workshop


def declare_rename(command: argparse.ArgumentParser) -> None:
    """What `rename` takes."""
    add_piece(command)
    command.add_argument("name", metavar="NAME", nargs="+", help="its new name, any words")


def run_rename(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Give a piece another name."""
    name = plain(" ".join(arguments.name))
    fault = name_fault(name)
    if fault:
        raise Wrong(fault)
    before = workshop.open(arguments.piece)
    opened = workshop.rename(before, name)
    say(f"{before.name} is now named {opened.name}.")
    return 0
