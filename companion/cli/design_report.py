"""A design that a command was given: planned, with all that is wrong with it told."""

from __future__ import annotations

from pathlib import Path

from companion.cli.printing import complain
from companion.core.cord.cord import CordChoice
from companion.workshop import Planned, Workshop


def planned_design(workshop: Workshop, design: str, card: str | None = None) -> Planned:
    """That file's plan, by the cord card of that name where one is given. Every finding goes to stderr."""
    planned = workshop.designs.plan(Path(design), chosen_card(card))
    for problem in planned.problems:
        complain(str(problem))
    return planned


def chosen_card(card: str | None) -> CordChoice | None:
    """By the card of that name, whatever the design says of its cord; None: as it says."""
    return None if card is None else CordChoice("card", card)
