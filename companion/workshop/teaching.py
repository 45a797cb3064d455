"""What a finished piece would teach the cord card that it was planned with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from companion.core.journal.events import Finished
from companion.workshop.open_piece import OpenPiece

if TYPE_CHECKING:
    from companion.core.cord.cards import CordCard
    from companion.core.cord.lessons import Lesson


@dataclass(frozen=True, slots=True)
class Teaching:
    """`card`: its name; `lines`: what it says now and would say then, in words; `why_not`: where there is no lesson."""

    card: str
    lessons: tuple[Lesson, ...] = ()
    lines: tuple[str, ...] = ()
    why_not: str = ""


def teaching(opened: OpenPiece, card: CordCard, length_mm: float | None, left_mm: float | None) -> Teaching:
    """What the piece would teach that card, with its real length and the cord left of one layer, mm, None: not said."""
    from companion.core.forecast.forecaster import Forecaster
    from companion.core.forecast.learning import ended, lessons, no_lesson
    from companion.core.words.finish_words import lesson_lines

    piece = ended(opened.plan, opened.piece, length_mm, left_mm)
    why_not = no_lesson(opened.plan, Forecaster(opened.plan, faults=True).outlook(piece))
    learnt = () if why_not else lessons(opened.plan, piece, opened.name)
    return Teaching(card.name, learnt, lesson_lines(card, learnt), why_not)


def finished_event(length_mm: float | None, left_mm: float | None, taught: Teaching | None) -> Finished:
    """The end of a piece, with what its card learns where the maker wants it."""
    from companion.core.cord.lessons import to_events

    if taught is None or not taught.lessons:
        return Finished(length_mm, left_mm)
    return Finished(length_mm, left_mm, taught.card, to_events(taught.lessons))
