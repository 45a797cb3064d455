"""What a card would learn from a piece, in words, and what is left of its cord."""

from __future__ import annotations

from dataclasses import replace

from companion.core.cord.cards import CordCard, knot_figures
from companion.core.cord.lessons import Lesson
from companion.core.values.design import KNOT_KINDS
from companion.core.values.show_lengths import DisplayUnit, show
from companion.core.values.text import capitalised
from companion.core.words.card_words import length_mean, take_up_mean

WORTH_KEEPING_MM = 150.0  # long enough for a row of test knots; our own choice


def lesson_lines(card: CordCard, learnt: tuple[Lesson, ...]) -> tuple[str, ...]:
    """For each kind of knot what the card says now, and would say then."""
    then = replace(card, lessons=(*card.lessons, *learnt))
    lines = []
    for kind in KNOT_KINDS:
        lesson = next((lesson for lesson in learnt if lesson.kind == kind), None)
        if lesson is None:
            continue
        old, new = knot_figures(card, kind), knot_figures(then, kind)
        parts = []
        if lesson.take_up:
            parts.append(f"take-up {take_up_mean(old)} → {take_up_mean(new)} mm")
        if lesson.length:
            parts.append(f"length {length_mean(old)} → {length_mean(new)} mm")
        lines.append(f"{capitalised(kind)} knot: {', '.join(parts)}.")
    return tuple(lines)


def left_words(left_mm: float, layers: int, unit: DisplayUnit) -> str:
    """What is left of the cord, and whether it is worth keeping."""
    layer = " a layer" if layers > 1 else ""
    if left_mm >= WORTH_KEEPING_MM:
        return f"{show(left_mm, unit)} of cord{layer} left: worth keeping, long enough for test knots."
    return f"{show(left_mm, unit)} of cord{layer} left."
