"""finish and abandon: the end of a piece, and what its cord card learns from it."""

from __future__ import annotations

import argparse

from companion.cli.arguments import add_piece, length_mm
from companion.cli.printing import complain, say
from companion.core.journal.events import MOST_NOTE
from companion.core.values.show_lengths import display_unit, show
from companion.core.values.text import plain
from companion.core.words.finish_words import aimed_at, can_be_right, left_words
from companion.workshop import OpenPiece, Teaching, Workshop


def declare_finish(command: argparse.ArgumentParser) -> None:
    """What `finish` takes."""
    add_piece(command)
    command.add_argument("length", metavar="LENGTH", nargs="?", help="its real length, end to end when closed")
    command.add_argument("--left", metavar="LENGTH", help="cord left of one layer past the closure, before trimming")
    command.add_argument("--learn", action="store_true", help="the cord card learns from the piece")


def run_finish(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Close a piece."""
    finished_mm = None if arguments.length is None else length_mm(arguments.length, above_zero=True)
    left_mm = None if arguments.left is None else length_mm(arguments.left)
    opened = workshop.open(arguments.piece)
    taught = workshop.teaching(opened, finished_mm, left_mm)
    opened = workshop.finish(opened, finished_mm, left_mm, taught if arguments.learn else None)
    say(f"{opened.plan.design} is finished.")
    if left_mm is not None:
        say(left_words(left_mm, opened.plan.strands[-1].layers, display_unit(opened.plan.unit)))
    _say_lesson(opened, taught, arguments.learn)
    if finished_mm is not None:
        unit, first_plan = display_unit(opened.plan.unit), opened.first_plan or opened.plan
        word, aim_mm = aimed_at(first_plan)
        say(f"{show(finished_mm, unit)} end to end; {word} {show(aim_mm, unit)}.")
        if not can_be_right(first_plan, finished_mm):
            complain(f"▲ That is far from the plan. `tallycord back {opened.name}` opens the piece again.")
    return 0


def _say_lesson(opened: OpenPiece, taught: Teaching | None, learn: bool) -> None:
    """What the card learnt, or would have learnt."""
    if taught is None or taught.why_not:
        if learn:
            complain(f"▲ No card learnt from it. {taught.why_not if taught else 'It was planned with none.'}")
        return
    for line in taught.lines:
        say(f"{plain(taught.card, 60)}: {line}")
    if taught.lines and not learn:
        say(f"The card has not learnt it: `tallycord back {opened.name}`, then finish with --learn, and it does.")


def declare_abandon(command: argparse.ArgumentParser) -> None:
    """What `abandon` takes."""
    add_piece(command)
    command.add_argument("reason", metavar="REASON", nargs="*", help="why, for the journal")


def run_abandon(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Put a piece away."""
    opened = workshop.abandon(workshop.open(arguments.piece), plain(" ".join(arguments.reason), MOST_NOTE))
    done = f"{opened.piece.done} of {opened.piece.total_steps} steps are done"
    say(f"{opened.name} is put away; {done}. `tallycord back {opened.name}` takes it up again.")
    return 0
