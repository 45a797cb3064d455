"""One way to fail: every command ends in an exit code and at most a sentence, never a traceback."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence

from companion.cli.arguments import Wrong
from companion.cli.parser import Run, parsed
from companion.cli.printing import CannotPrint, complain, finish_output, for_the_ear
from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.workshop import Workshop, open_at


def run(argv: Sequence[str]) -> int:
    """Run one command line; its exit code."""
    for_the_ear(argv)
    try:
        return _run(argv)
    except SystemExit as stop:
        return int(stop.code or 0)
    except Wrong as wrong:
        complain(str(wrong))
        return 2
    except (WorkshopError, CannotPrint) as trouble:
        complain(str(trouble))
        return 1
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # so that the last flush finds no broken pipe
        return 0
    except Exception as error:
        if os.environ.get("TALLYCORD_TRACEBACK"):
            raise
        complain(f"Something went wrong in Tallycord itself: {type(error).__name__}: {plain(str(error))}.")
        return 1


def _run(argv: Sequence[str]) -> int:
    if argv[:1] == ["help"]:  # as people ask for it
        argv = [*argv[1:], "--help"]
    run_it, arguments = parsed(argv)
    workshop = open_at()
    try:
        code = _of_its_piece(run_it, arguments, workshop)
        finish_output()
        if workshop.has_written:  # the results are out: nobody waits for the copy
            trouble = workshop.keep_a_copy()
            if trouble:
                complain(f"▲ {trouble}")
    finally:
        workshop.close()
    return code


def _of_its_piece(run_it: Run, arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Run it. What goes wrong with a piece that was not named begins with its name."""
    try:
        return run_it(arguments, workshop)
    except (Wrong, WorkshopError) as error:
        name = getattr(arguments, "latest", "")
        if name:
            error.args = (f"{name}: {error}",)
        raise
