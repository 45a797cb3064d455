"""risk: how sure a cut is to be, for all plans from now on."""

from __future__ import annotations

import argparse

from companion.cli.arguments import share
from companion.cli.printing import say
from companion.workshop import Workshop


def declare_risk(command: argparse.ArgumentParser) -> None:
    """What `risk` takes."""
    command.add_argument("risk", metavar="SHARE", nargs="?", help="a share in per cent, such as 1%% or 0.2%%")


def run_risk(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Say it or set it."""
    if arguments.risk is not None:
        workshop.set_run_out_risk(share(arguments.risk))
    risk = workshop.run_out_risk
    say(f"New plans are cut so that {100 * risk:g} % of pieces run out: one in {round(1 / risk):,}.")
    return 0
