"""The journal of a piece, every event with its time."""

from __future__ import annotations

import argparse

from companion.cli.printing import say
from companion.cli.which_piece import add_piece, meant_piece
from companion.core.words.event_words import event_words
from companion.workshop import Workshop


def declare_journal(command: argparse.ArgumentParser) -> None:
    """What `journal` takes."""
    add_piece(command)


def run_journal(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Tell the story of a piece."""
    meant = meant_piece(arguments, workshop, ended=True)
    meant.say()
    for entry, plan, act in workshop.journal_with_plans(meant.opened):
        say(f"{entry.at.astimezone():%Y-%m-%d %H:%M:%S}  {event_words(plan, entry.event, act)}")
    return 0
