"""The terminal app: the bench, and following one design."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import Any

from companion.cli.declare import Commands, declare
from companion.cli.printing import complain
from companion.workshop import Workshop

NO_TERMINAL = (
    "This needs a terminal. Without one the same piece can be made a line at a time: "
    "companion start DESIGN, then companion next PIECE; companion --help lists the rest."
)


def add_commands(commands: Commands[Any]) -> None:
    """Declare the commands of this file."""
    follow = declare(
        commands,
        "follow",
        run_follow,
        "make a piece of a design, step by step, on the screen",
        ("follow skerry.yaml", "follow skerry.yaml --new    another piece of it"),
        "Open a design in the terminal app: begin a piece, or go on with the one under way.",
    )
    follow.add_argument("design", metavar="DESIGN", help="a design file")
    follow.add_argument("--new", action="store_true", help="begin another piece, even with one under way")


def run_follow(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Follow one design."""
    path = Path(arguments.design)
    if arguments.new or not workshop.pieces_of(path):  # a piece under way goes by its own copy of the design
        from companion.cli.designs import tell_problems

        planned = workshop.plan(path)
        tell_problems(planned)
        if planned.plan is None:
            return 1
    if not _terminal():
        complain(NO_TERMINAL)
        return 1
    from companion.tui.app import run

    return run(workshop, design=path, new=arguments.new)


def run_bench(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Open the bench."""
    if not _terminal():
        complain(NO_TERMINAL)
        return 1
    from companion.tui.app import run

    return run(workshop)


def _terminal() -> bool:
    seen = all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))
    return seen and os.environ.get("TERM", "") not in ("", "dumb")
