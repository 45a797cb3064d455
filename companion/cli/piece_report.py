"""What several commands say of a piece: its steps, and whether length and cord will do."""

from __future__ import annotations

from typing import Any

from companion.cli.printing import say
from companion.core.forecast.outlook import Outlook
from companion.core.plan.leftover import leftover_due
from companion.core.remedies.remedy_words import best_is_poor, remedy_line
from companion.core.words.finish_words import leftover_line
from companion.core.words.measured.alarms import Moment, news
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.reading_words import set_aside_line
from companion.core.words.measured.verdict_words import verdict_line
from companion.core.words.step_words import step_line
from companion.workshop import OpenPiece, Workshop

LEAST_JOINED_MM = 20.0  # less is no join: a bare number that comes to less is in another unit; our own choice
MOST_SAID = 3  # remedies after a reading; more than that nobody listens to


def say_next(opened: OpenPiece) -> None:
    """The step that comes next, or how the piece is closed."""
    if opened.piece.done < opened.plan.total_steps:
        say(f"Next: {step_line(opened.plan, opened.piece.done + 1)}")
        say_leftover_due(opened)
    else:
        say(f"Every step is done. Measure the piece, then: `tallycord finish {opened.name} LENGTH`.")


def say_leftover_due(opened: OpenPiece) -> None:
    """That the tails are trimmed next, and what is left of the cord was not measured yet."""
    if leftover_due(opened.plan, opened.piece):
        say(leftover_line(f": `tallycord measure {opened.name} --free LENGTH`").text)


def say_news(before: OpenPiece | None, opened: OpenPiece, workshop: Workshop) -> None:
    """What is new of length and cord since before the act; None: nothing was said yet."""
    if opened.piece.state != "under way":
        return
    earlier = Moment(before.plan, before.piece, workshop.outlook(before)) if before else None
    for notice in news(earlier, Moment(opened.plan, opened.piece, workshop.outlook(opened))):
        say(str(notice))


def layer_cut_mm(opened: OpenPiece) -> float:
    """The longest cord that the piece was begun with, one layer of it: nothing joined or left is longer."""
    return max(strand.cut_mm / strand.layers for strand in opened.began_with.strands)


def say_verdicts(opened: OpenPiece, workshop: Workshop) -> None:
    """Length, cord, and what would put it right."""
    outlook = workshop.outlook(opened)
    say(str(verdict_line(opened.plan, opened.piece, outlook)))
    say(str(cord_line(opened.plan, outlook)))
    aside = set_aside_line(opened.plan, outlook)
    if aside:
        say(str(aside))
    found = workshop.remedies(opened)
    if not found:
        return

    for number, remedy in enumerate(found[:MOST_SAID], start=1):
        say(f"{'What to do' if number == 1 else 'Or'}: {remedy_line(opened.plan, remedy)}")
    if best_is_poor(found):
        say(best_is_poor(found))
    if len(found) > MOST_SAID:
        say(f"More ways out: `tallycord remedy {opened.name}`.")


def cord_json(outlook: Outlook) -> dict[str, Any]:
    """The cord that is in the greatest danger, as plain values; keys may be added, never renamed."""
    cord = outlook.entries[outlook.worst_cord].cord
    return {
        "verdict": cord.verdict,
        "p_run_out": cord.p_run_out,
        "p_short_to_hold": cord.p_short_to_hold,
        "step": cord.step,
        "bead": cord.bead,
        "short_mm": cord.short_mm,
    }
