"""Following a piece: in the terminal app, or at a prompt; and the bench."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

from companion.cli.arguments import Wrong
from companion.cli.design_report import planned_design
from companion.cli.printing import complain
from companion.cli.which_piece import meant_piece
from companion.workshop import Workshop

NO_TERMINAL = (
    "This needs a terminal. Without one the same piece can be made a line at a time: "
    "tallycord follow DESIGN --lines, or tallycord start DESIGN and then tallycord next; tallycord --help lists the "
    "rest."
)


def declare_follow(command: argparse.ArgumentParser) -> None:
    """What `follow` takes."""
    command.add_argument("design", metavar="DESIGN", nargs="?", help="a design file (--lines: or the latest piece)")
    command.add_argument("--new", action="store_true", help="begin another piece, even with one under way")
    command.add_argument("--lines", action="store_true", help="line by line, without a screen")
    command.add_argument("-p", "--piece", dest="named", metavar="PIECE", help="with --lines: that piece")
    command.set_defaults(piece=None, takes="nothing", needed=False)


def run_follow(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Follow one design, or with --lines the piece that is meant."""
    if arguments.design is None and (arguments.new or not arguments.lines):
        raise Wrong("Found no DESIGN; expected a design file. `tallycord` alone opens the bench.")
    if arguments.named is not None and (arguments.design is not None or not arguments.lines):
        raise Wrong("Found --piece without --lines; with --lines it stands in place of a DESIGN.")
    if arguments.lines:
        from companion.cli.lines.beginning import follow_lines

        meant = meant_piece(arguments, workshop) if arguments.design is None else None
        if meant:
            meant.say()
        return follow_lines(workshop, arguments.design, meant.opened if meant else None, arguments.new)
    path = Path(arguments.design)
    goes_on = not arguments.new and workshop.pieces_of(path)  # by its own copy of the design: the file is not read
    if not goes_on and planned_design(workshop, arguments.design).plan is None:
        return 1
    return _app(workshop, path, arguments.new)


def run_bench(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Open the bench."""
    return _app(workshop)


def declare_design(command: argparse.ArgumentParser) -> None:
    """What `design` takes."""
    command.add_argument("design", metavar="FILE", nargs="?", help="a design to begin with; it stays as it is")


def run_design(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Open the design page."""
    if arguments.design is not None and planned_design(workshop, arguments.design).plan is None:
        return 1
    copy_of = Path(arguments.design) if arguments.design is not None else None
    return _app(workshop, copy_of, drawing=True)


def declare_try(command: argparse.ArgumentParser) -> None:
    """What `try` takes: nothing."""


def run_try(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Open the sample piece."""
    return _app(workshop, trying=True)


def _app(
    workshop: Workshop, design: Path | None = None, new: bool = False, drawing: bool = False, trying: bool = False
) -> int:
    """Run the app, which is loaded here and nowhere else."""
    if not _terminal():
        complain(NO_TERMINAL)
        return 1
    from companion.tui.app import run

    return run(workshop, design, new, drawing, trying)


def _terminal() -> bool:
    seen = all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))
    in_a_browser = "TEXTUAL_DRIVER" in os.environ
    return in_a_browser or (seen and os.environ.get("TERM", "") not in ("", "dumb"))
