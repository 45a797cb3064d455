"""remedy: what would put a piece right, listed, or done."""

from __future__ import annotations

import argparse

from companion.cli.arguments import Wrong, add_piece
from companion.cli.piece_report import say_next, say_verdicts
from companion.cli.printing import say
from companion.core.journal.piece import STATE_WORDS
from companion.core.remedies.remedy_words import best_is_poor, remedy_line
from companion.core.values.errors import NotPossible
from companion.core.values.text import plain
from companion.workshop import Workshop


def declare_remedy(command: argparse.ArgumentParser) -> None:
    """What `remedy` takes."""
    add_piece(command)
    command.add_argument("number", metavar="NUMBER", nargs="?", help="which of them to go on with")


def run_remedy(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List what would help, or go on with one of it."""
    opened = workshop.open(arguments.piece)
    if opened.piece.state != "under way":
        raise NotPossible(f"This piece is {STATE_WORDS[opened.piece.state]}: going back opens it again.")
    found = workshop.remedies(opened)
    if arguments.number is None:
        for number, remedy in enumerate(found, start=1):
            say(f"{number}  {remedy_line(opened.plan, remedy)}")
        if best_is_poor(found):
            say(best_is_poor(found))
        if not found:
            say("Nothing needs doing, or nothing is left to change.")
        return 0
    if arguments.number not in [str(number) for number in range(1, len(found) + 1)]:
        raise Wrong(f"There is no remedy {plain(arguments.number, 20)}; there are {len(found)}.")
    chosen = found[int(arguments.number) - 1]
    if chosen.join:
        raise Wrong(f"How much new cord there is only you know: `tallycord join {opened.name} LENGTH` joins it on.")
    opened = workshop.choose(opened, chosen)
    say(
        f"Going on so: {chosen.what}. {opened.piece.done} of {opened.plan.total_steps} steps are made. "
        "`tallycord back` undoes it."
    )
    say_next(opened)
    say_verdicts(opened, workshop)
    return 0
