"""remedy: what would put a piece right, listed, or done."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from companion.cli.arguments import Wrong
from companion.cli.piece_report import COMMANDS, say_next
from companion.cli.printing import say
from companion.cli.verdict_report import say_verdicts
from companion.cli.which_piece import add_piece, meant_piece
from companion.core.forecast.outlook import Outlook
from companion.core.journal.piece import STATE_WORDS
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_words import best_is_poor, chosen_notice, joins_alone, remedy_line
from companion.core.values.errors import NotPossible
from companion.core.values.text import plain
from companion.core.words.measured.ways_words import ways_lines
from companion.workshop import OpenPiece, Workshop


def declare_remedy(command: argparse.ArgumentParser) -> None:
    """What `remedy` takes."""
    add_piece(command, "NUMBER", "which one to choose", "number")


def run_remedy(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """List what would help, or go on with one of it."""
    meant = meant_piece(arguments, workshop)
    opened, number_typed = meant.opened, meant.text
    if opened.piece.state != "under way":
        raise NotPossible(f"This piece is {STATE_WORDS[opened.piece.state]}. Undo opens it again.")
    found = workshop.remedies(opened, nearer=True)
    if not number_typed:
        meant.say()
        _say_ways(opened, workshop.outlook(opened), found)
        return 0
    if number_typed not in [str(number) for number in range(1, len(found) + 1)]:
        raise Wrong(f"There is no number {plain(number_typed, 20)}; there are {len(found)}.")
    chosen = found[int(number_typed) - 1]
    if chosen.join:
        raise Wrong(f"Only you know how much new cord there is: `tallycord join {opened.name} LENGTH` joins it on.")
    opened = workshop.choose(opened, chosen)
    meant.say()
    say(chosen_notice(chosen, "`tallycord undo`").text)
    say(f"{opened.piece.done} of {opened.plan.total_steps} steps are done.")
    say_next(opened)
    say_verdicts(opened, workshop)
    return 0


def _say_ways(opened: OpenPiece, outlook: Outlook, found: Sequence[Remedy]) -> None:
    for line in ways_lines(opened.plan, opened.piece, outlook, bool(found), COMMANDS, "count", joins_alone(found)):
        say(line)
    for number, remedy in enumerate(found, start=1):
        say(f"{number}  {remedy_line(opened.plan, remedy)}")
    if best_is_poor(found):
        say(best_is_poor(found))
