"""start: a piece begun, with the cuts really made."""

from __future__ import annotations

import argparse
from pathlib import Path

from companion.cli.arguments import add_design
from companion.cli.design_report import planned_design
from companion.cli.printing import complain, say
from companion.cli.typed_lengths import cuts_of
from companion.core.journal.events import CutEntered
from companion.core.plan.plan import Plan
from companion.core.words.cut_words import cut_lines, cut_questioned
from companion.workshop import Workshop


def declare_start(command: argparse.ArgumentParser) -> None:
    """What `start` takes."""
    add_design(command)
    command.add_argument(
        "--cut",
        metavar="LENGTH",
        action="append",
        default=[],
        help="the whole length you really cut, before folding; with several cords once for each, or NAME=LENGTH",
    )


def run_start(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Begin a piece."""
    planned = planned_design(workshop, arguments.design, arguments.card)
    if planned.plan is None:
        return 1
    cuts = cuts_of(planned.plan, arguments.cut)
    for cut in cuts:
        _question(planned.plan, cut)
    say(workshop.start(Path(arguments.design), cuts, planned).name)
    return 0


def _question(plan: Plan, cut: CutEntered) -> None:
    """A cut much too short is questioned before the first knot; it is taken all the same."""
    if cut_questioned(plan, cut.cord, cut.length_mm):
        which = f"{plan.cuts[cut.cord].name}: " if len(plan.cuts) > 1 else ""
        for line in cut_lines(plan, cut.cord, cut.length_mm):
            complain(f"{line.mark} {which}{line.text}")
