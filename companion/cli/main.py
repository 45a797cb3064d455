"""One parser, one way to fail: every command ends in an exit code and at most a sentence, never a traceback."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import NoReturn

from companion import __version__
from companion.cli.printing import CannotPrint, complain, finish_output
from companion.cli.wrong import Wrong
from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.workshop import NotPossible, Workshop, open_at

EXAMPLES = """\
examples:
  companion plan patterns/skerry-bracelet.yaml    what to cut, and every step
  companion follow patterns/skerry-bracelet.yaml  make it, step by step
  companion                                       the bench: go on with a piece

Lengths are written with their unit: 7 3/4 in, 19.7 cm, 197 mm.
Exit codes: 0 done; 1 a design, file or piece needs seeing to; 2 wrong usage.
"""


class Parser(argparse.ArgumentParser):
    """argparse, with nothing typed reaching the terminal unclean."""

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        complain(f"{self.prog}: {plain(message, 400)}")
        raise SystemExit(2)


FAMILIES = {
    "follow": ("follow",),
    "designs": ("plan", "check", "schema"),
    "forecasts": ("forecast",),
    "pieces": ("start", "pieces", "status"),
    "making": ("next", "recount", "back", "remedy", "join", "jump", "note", "finish", "abandon"),
    "readings": ("measure",),
    "journal": ("journal",),
    "cords": ("cords", "cord"),
    "settings": ("risk",),
    "exports": ("export", "import", "rescue"),
}


def parser(first: str = "") -> argparse.ArgumentParser:
    """The command line; with a command's name first, only that command's family is loaded."""
    top = Parser(
        prog="companion",
        description="Follow a design of knotted cord jewellery, bead by bead and knot by knot.\n"
        "Without a command it opens the bench.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    top.add_argument("--version", action="version", version=f"companion {__version__}")
    commands = top.add_subparsers(metavar="COMMAND", title="commands", parser_class=Parser)
    for family, names in FAMILIES.items():
        if not first or first in names:
            import_module(f"companion.cli.{family}").add_commands(commands)
    return top


def _known(argv: Sequence[str]) -> str:
    """The command that the line begins with, "" where that is none."""
    names = [name for family in FAMILIES.values() for name in family]
    return argv[0] if argv and argv[0] in names else ""


def _parsed(argv: Sequence[str]) -> tuple[Callable[[argparse.Namespace, Workshop], int], argparse.Namespace]:
    """What to run, and with what. Without a command: the bench."""
    from companion.cli.follow import run_bench

    if not argv:
        return run_bench, argparse.Namespace()
    arguments = parser(_known(argv)).parse_args(argv)
    return getattr(arguments, "run", run_bench), arguments


def tell_trouble(text: str) -> None:
    """Something that went wrong beside the work, where anything did; the exit code stays."""
    if text:
        complain(f"▲ {text}")


def run(argv: Sequence[str]) -> int:
    """Run one command line; its exit code."""
    try:
        run_it, arguments = _parsed(argv)
        workshop = open_at()
        try:
            code = run_it(arguments, workshop)
            finish_output()
            if workshop.has_written:  # the results are out: nobody waits for the copy
                tell_trouble(workshop.keep_a_copy())
        finally:
            workshop.close()
    except SystemExit as stop:
        return int(stop.code or 0)
    except Wrong as wrong:
        complain(str(wrong))
        return 2
    except (WorkshopError, NotPossible, CannotPrint) as trouble:
        complain(str(trouble))
        return 1
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # so that the last flush finds no broken pipe
        return 0
    except Exception as error:
        if os.environ.get("COMPANION_TRACEBACK"):
            raise
        complain(f"Something went wrong in the companion itself: {type(error).__name__}: {plain(str(error))}.")
        return 1
    return code
