"""risk: how sure a cut is to be, for all plans from now on."""

from __future__ import annotations

import argparse
from typing import Any

from companion.cli.arguments import share
from companion.cli.declare import Commands, declare
from companion.cli.printing import say
from companion.workshop import Workshop


def add_commands(commands: Commands[Any]) -> None:
    """Declare the commands of this file."""
    risk = declare(
        commands,
        "risk",
        run_risk,
        "how often a cord may run out: what new plans are cut for",
        ("risk", "risk 5%", "risk 0.2%"),
        "Say, or set, the chance of running out that new plans are cut for: 1 % to begin with, one piece in a hundred. "
        "The smaller it is, the more cord is left over. Pieces under way keep theirs.",
    )
    risk.add_argument("risk", metavar="SHARE", nargs="?", help="a share in per cent, such as 1%% or 0.2%%")


def run_risk(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Say it or set it."""
    if arguments.risk is not None:
        workshop.set_run_out_risk(share(arguments.risk))
    risk = workshop.run_out_risk
    say(f"New plans are cut so that {100 * risk:g} % of pieces run out: one in {round(1 / risk):,}.")
    return 0
