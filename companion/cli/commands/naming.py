"""rename: another name for a piece."""

from __future__ import annotations

import argparse

from companion.cli.arguments import Wrong
from companion.cli.printing import say
from companion.cli.which_piece import add_piece, meant_piece
from companion.core.journal.name_fault import name_fault
from companion.core.values.text import plain
from companion.workshop import Workshop


def declare_rename(command: argparse.ArgumentParser) -> None:
    """What `rename` takes."""
    add_piece(command, "NAME", "its new name, any words", "text", needed=True)


def run_rename(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Give a piece another name."""
    meant = meant_piece(arguments, workshop, ended=True)
    name = plain(meant.text)
    fault = name_fault(name)
    if fault:
        raise Wrong(fault)
    opened = workshop.rename(meant.opened, name)
    say(f"{meant.opened.name} is now named {opened.name}.")
    return 0
