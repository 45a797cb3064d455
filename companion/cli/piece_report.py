"""What several commands say of a piece: its steps, and whether length and cord will do."""

from __future__ import annotations

from companion.cli.printing import say
from companion.core.words.cord_words import cord_line
from companion.core.words.reading_words import set_aside_line
from companion.core.words.step_words import step_line
from companion.core.words.verdict_words import verdict_line
from companion.workshop import OpenPiece, Workshop

MOST_SAID = 3  # remedies after a reading; more than that nobody listens to


def say_next(opened: OpenPiece) -> None:
    """The step that comes next, or how the piece is closed."""
    if opened.piece.done < opened.plan.total_steps:
        say(f"Next: {step_line(opened.plan, opened.piece.done + 1)}")
    else:
        say(f"Every step is made. `tallycord finish {opened.name}` closes the piece.")


def say_verdicts(opened: OpenPiece, workshop: Workshop) -> None:
    """Length, cord, and what would put it right."""
    outlook = workshop.outlook(opened)
    say(str(verdict_line(opened.plan, opened.piece, outlook)))
    say(str(cord_line(opened.plan, outlook)))
    aside = set_aside_line(opened.plan, outlook)
    if aside:
        say(str(aside))
    found = workshop.remedies(opened)
    for number, remedy in enumerate(found[:MOST_SAID], start=1):
        say(f"{'What to do' if number == 1 else 'Or'}: {remedy.text}")
    if len(found) > MOST_SAID:
        say(f"More ways out: `tallycord remedy {opened.name}`.")
