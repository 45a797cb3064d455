"""What the follow screen says under its figures: what just happened, then length and cord, what matters most first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from companion.core.words.notices import Notice
from companion.tui.follow.session import PieceSession

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook
    from companion.core.journal.piece import Piece
    from companion.core.plan.plan import Plan
    from companion.core.words.measured.verdict_words import Answer, Keys

# The keys that answer a sentence; they stand in it.
ANSWERS: dict[Answer, str] = {
    "measure": "m",
    "measure cord": "c",
    "recount": "r",
    "question tells": "",
    "measure again": "m",
    "measure cord again": "c",
    "withdraw": "x",
    "readings": "M, then ",
    "remedies": "w: what to do",
}


def follow_sentences(session: PieceSession, outlook: Outlook | None) -> list[Notice]:
    """The sentences of a piece that is open. Beside what went wrong only what
    can be done at no other time is asked for: it needs the room. Of a piece that has
    ended nothing is to be done. `outlook`: None while it is being worked out."""
    said = session.notice
    lines = [said] if said else []
    if outlook is None or session.piece.state != "under way":
        return lines
    asked = _asked_before_trimming(session)
    if said and said.level == "off":
        return [*lines, *asked]
    from companion.core.words.measured.cord_words import cord_line
    from companion.core.words.measured.verdict_words import verdict_line

    keys = {} if session.open_elsewhere else ANSWERS  # the other window's keys answer there
    verdict = verdict_line(session.plan, session.piece, outlook, keys)
    cord = cord_line(session.plan, outlook)
    lines += asked
    lines += [cord, verdict] if cord.level == "off" else [verdict]
    if cord.level == "watch":
        lines.append(cord)
    return [*lines, *_of_readings(session.plan, session.piece, outlook, keys)]


def _asked_before_trimming(session: PieceSession) -> list[Notice]:
    """The leftover cord, which nobody can measure once the tails are trimmed: asked for until it is measured."""
    from companion.core.plan.leftover import leftover_due
    from companion.core.words.finish_words import leftover_line

    due = leftover_due(session.plan, session.piece) and not session.open_elsewhere
    return [leftover_line(" (c)")] if due else []


def was_just_read(piece: Piece) -> bool:
    """Whether no step was marked since the latest reading."""
    return bool(piece.all_readings) and piece.all_readings[-1].measured.step == piece.done


def _of_readings(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> list[Notice]:
    """What is to be said of single readings, and that knots settle: news where a reading was just taken. From the next
    step on the list of readings tells it."""
    if not was_just_read(piece):
        return []
    from companion.core.words.measured.reading_list_words import doubts_lines
    from companion.core.words.measured.reading_words import believed_line
    from companion.core.words.measured.reason_words import settling_words

    said = doubts_lines(plan, piece, outlook, keys)
    if believed := believed_line(plan, piece, outlook):
        said.append(believed)
    settling = settling_words(plan, piece, outlook)
    return [*said, Notice("quiet", settling)] if settling else said
