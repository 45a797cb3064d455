"""finish and abandon: the end of a piece, and what its cord card learns from it."""

from __future__ import annotations

import argparse

from companion.cli.piece_report import layer_cut_mm
from companion.cli.printing import GIVE_AGAIN, complain, say
from companion.cli.typed_lengths import fitting_length_mm
from companion.cli.which_piece import add_piece, meant_piece
from companion.core.journal.events import MOST_NOTE
from companion.core.plan.leftover import leftover_mm
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import plain
from companion.core.words.finish_words import aimed_at, can_be_right, left_words
from companion.workshop import OpenPiece, Teaching, Workshop


def declare_finish(command: argparse.ArgumentParser) -> None:
    """What `finish` takes."""
    add_piece(command, "LENGTH", "its real length, end to end when closed", "length")
    left = "how much of one cord is left past the closure, before trimming"
    command.add_argument("--left", metavar="LENGTH", help=left)
    command.add_argument("--anyway", action="store_true", help="take a length that looks wrong")
    command.add_argument("--learn", action="store_true", help="update the cord card from this piece")


def run_finish(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Close a piece."""
    meant = meant_piece(arguments, workshop)
    opened = meant.opened
    finished_mm = _finished_mm(opened, meant.text) if meant.text else None
    if finished_mm is not None and not arguments.anyway and not can_be_right(opened.began_with, finished_mm):
        complain(f"▲ {_far(opened, finished_mm)} Nothing was saved. {GIVE_AGAIN}")
        return 1
    left_mm = leftover_mm(opened.plan, opened.piece)  # measured before the tails were trimmed
    if arguments.left is not None:
        left_mm = _left_mm(opened, arguments.left)
    taught = workshop.teaching(opened, finished_mm, left_mm)
    opened = workshop.finish(opened, finished_mm, left_mm, taught if arguments.learn else None)
    meant.say()
    say(f"{opened.plan.design} is finished.")
    if left_mm is not None:
        keep_mm = workshop.settings.scrap_mm
        say(left_words(left_mm, opened.plan.strands[-1].layers, display_unit(opened.plan.unit), keep_mm))
    _say_lesson(opened, taught, arguments.learn)
    if finished_mm is not None:
        unit, (word, aim_mm) = display_unit(opened.plan.unit), aimed_at(opened.began_with)
        say(f"{show(finished_mm, unit)} end to end; {word} {show(aim_mm, unit)}.")
    return 0


def _far(opened: OpenPiece, length_mm: float) -> str:
    """That a finished length can hardly be right."""
    unit, (word, aim_mm) = display_unit(opened.plan.unit), aimed_at(opened.began_with)
    return f"{show(length_mm, unit)} is far from the plan: {word} {show(aim_mm, unit)}."


def _finished_mm(opened: OpenPiece, text: str) -> float:
    first_plan = opened.began_with
    return fitting_length_mm(text, first_plan, lambda mm: can_be_right(first_plan, mm), above_zero=True)


def _left_mm(opened: OpenPiece, text: str) -> float:
    """What is left of one layer: less than was cut."""
    return fitting_length_mm(text, opened.plan, lambda mm: mm < layer_cut_mm(opened))


def _say_lesson(opened: OpenPiece, taught: Teaching | None, learn: bool) -> None:
    """What the card learnt, or would have learnt."""
    if taught is None or taught.why_not:
        if learn:
            complain(
                f"▲ No cord card was updated. {taught.why_not if taught else 'The piece was planned without one.'}"
            )
        return
    for line in taught.lines:
        say(f"{plain(taught.card, 60)}: {line}")
    if taught.lines and not learn:
        say(f"The card is not updated. To update it: `tallycord undo {opened.name}`, then finish with --learn.")


def declare_abandon(command: argparse.ArgumentParser) -> None:
    """What `abandon` takes."""
    add_piece(command, "REASON", "why, for the journal; in quotes if you name no piece", "text")


def run_abandon(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Put a piece away."""
    meant = meant_piece(arguments, workshop)
    opened = workshop.abandon(meant.opened, plain(meant.text, MOST_NOTE))
    meant.say()
    done = f"{opened.piece.done} of {opened.piece.total_steps} steps are done"
    say(f"{opened.name} is put away; {done}. `tallycord undo {opened.name}` takes it up again.")
    return 0
