"""What several commands say of a piece: whether length and cord will do, and what would put them right."""

from __future__ import annotations

from typing import Any

from companion.cli.piece_report import COMMANDS
from companion.cli.printing import say, tell
from companion.core.forecast.outlook import Outlook
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.reading_list_words import doubts_lines
from companion.core.words.measured.verdict_words import verdict_line
from companion.core.words.notices import Notice
from companion.workshop import OpenPiece, Workshop

MOST_SAID = 3  # remedies after a reading; more than that nobody listens to


def say_verdicts(opened: OpenPiece, workshop: Workshop, before: OpenPiece | None = None) -> None:
    """Length, cord, and what would put it right. `before`: the piece before a reading was taken, which is judged by
    then; what was doubted before it already is not said again."""
    outlook = workshop.outlook(opened)
    tell(verdict_line(opened.plan, opened.piece, outlook, COMMANDS, of_the_piece=before is not None))
    tell(cord_line(opened.plan, outlook))
    known = _doubts(before, workshop) if before else []
    for notice in _doubts(opened, workshop):
        if notice not in known:
            say(str(notice))
    found = workshop.remedies(opened)
    if not found:
        return
    from companion.core.remedies.remedy_words import best_is_poor, remedy_line  # most pieces need no remedy

    for number, remedy in enumerate(found[:MOST_SAID], start=1):
        say(f"{'What to do' if number == 1 else 'Or'}: {remedy_line(opened.plan, remedy)}")
    if best_is_poor(found):
        say(best_is_poor(found))
    if len(found) > MOST_SAID:
        say(f"More ways out: `tallycord remedy {opened.name}`.")


def _doubts(opened: OpenPiece, workshop: Workshop) -> list[Notice]:
    """What is to be said of single readings."""
    return doubts_lines(opened.plan, opened.piece, workshop.outlook(opened), COMMANDS)


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
