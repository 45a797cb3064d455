"""What several commands say of a piece: the step that comes next, and what is new of length and cord."""

from __future__ import annotations

from companion.cli.printing import say, tell
from companion.core.plan.leftover import leftover_due, leftover_mm
from companion.core.words.measured.alarms import PieceThen, news
from companion.core.words.measured.verdict_words import Keys
from companion.core.words.step_words import step_line
from companion.workshop import OpenPiece, Workshop

# What answers a sentence; it stands in the sentence.
COMMANDS: Keys = {"recount": "`tallycord recount`", "jump": "`tallycord jump`"}
LEAST_JOINED_MM = 20.0  # less is no join: a bare number that comes to less is in another unit; our own choice


def say_next(opened: OpenPiece) -> None:
    """The step that comes next, or how the piece is closed."""
    if opened.piece.done < opened.plan.total_steps:
        say_leftover_due(opened)
        say(f"Next: {step_line(opened.plan, opened.piece.done + 1, opened.piece)}")
    else:
        say(f"Every step is done. Measure the piece, then: `tallycord finish {opened.name} LENGTH{_left(opened)}`.")


def _left(opened: OpenPiece) -> str:
    """What else `finish` is told: what is left of the cord, unless it was measured before the tails were trimmed."""
    return " --left LENGTH" if leftover_mm(opened.plan, opened.piece) is None else ""


def say_leftover_due(opened: OpenPiece) -> None:
    """That the tails are trimmed next, and what is left of the cord was not measured yet."""
    if leftover_due(opened.plan, opened.piece):
        from companion.core.words.finish_words import leftover_line  # once in a piece

        say(leftover_line(f": `tallycord measure {opened.name} --free LENGTH`").text)


def say_news(before: OpenPiece | None, opened: OpenPiece, workshop: Workshop) -> None:
    """What is new of length and cord since before the act; None: nothing was said yet."""
    if opened.piece.state != "under way":
        return
    earlier = PieceThen(before.plan, before.piece, workshop.outlook(before)) if before else None
    for notice in news(earlier, PieceThen(opened.plan, opened.piece, workshop.outlook(opened)), COMMANDS):
        tell(notice)


def layer_cut_mm(opened: OpenPiece) -> float:
    """The longest cord that the piece was begun with, one layer of it: nothing joined or left is longer."""
    return max(strand.cut_mm / strand.layers for strand in opened.began_with.strands)
