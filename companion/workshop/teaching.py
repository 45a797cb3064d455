"""What a finished piece would teach the cord card that it was planned with."""

from __future__ import annotations

from collections.abc import Callable

from companion.core.cord.cards import CordCard
from companion.core.cord.lessons import to_events
from companion.core.forecast.learning import ended, lessons, no_lesson
from companion.core.forecast.outlook import Outlook
from companion.core.journal.events import Finished
from companion.core.journal.piece import Piece
from companion.core.words.card_words import lesson_lines
from companion.workshop.open_piece import OpenPiece
from companion.workshop.results import Teaching


def teaching(
    opened: OpenPiece,
    card: CordCard,
    length_mm: float | None,
    left_mm: float | None,
    suppose: Callable[[OpenPiece, Piece], Outlook],
) -> Teaching:
    """What the piece would teach that card, with its real length and the cord left of one layer, mm, None: not said.
    `suppose`: what would be expected of the piece if it stood so."""
    piece = ended(opened.plan, opened.piece, length_mm, left_mm)
    why_not = no_lesson(opened.plan, suppose(opened, piece))
    learnt = () if why_not else lessons(opened.plan, piece, opened.name)
    return Teaching(card.name, learnt, lesson_lines(card, learnt), why_not)


def finished(length_mm: float | None, left_mm: float | None, taught: Teaching) -> Finished:
    """The end of a piece, with what its card learns."""
    if not taught.lessons:
        return Finished(length_mm, left_mm)
    return Finished(length_mm, left_mm, taught.card, to_events(taught.lessons))
