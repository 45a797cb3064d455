"""What a card would learn from a piece, in words, and what is left of its cord."""

from __future__ import annotations

from dataclasses import replace

from companion.core.cord.cards import CordCard, half95_mm, knot_figures
from companion.core.cord.lessons import Lesson
from companion.core.values.design import KNOT_KINDS
from companion.core.values.show_lengths import DisplayUnit, show

WORTH_KEEPING_MM = 150.0  # long enough for a row of test knots; our own choice


def lesson_lines(card: CordCard, learnt: tuple[Lesson, ...]) -> tuple[str, ...]:
    """For each kind of knot what the card says now, and would say then."""
    then = replace(card, lessons=(*card.lessons, *learnt))
    lines = []
    for kind in KNOT_KINDS:
        mine = [lesson for lesson in learnt if lesson.kind == kind]
        if not mine:
            continue
        old, new = knot_figures(card, kind), knot_figures(then, kind)
        parts = []
        if mine[0].take_up:
            before, after = (half95_mm(one.take_up_sd_mm, one.degrees) for one in (old, new))
            parts.append(f"take-up {old.take_up_mm:.2f} ± {before:.2f} → {new.take_up_mm:.2f} ± {after:.2f} mm")
        if mine[0].length:
            before, after = (half95_mm(one.length_sd_mm, one.degrees) for one in (old, new))
            parts.append(f"length {old.length_mm:.2f} ± {before:.2f} → {new.length_mm:.2f} ± {after:.2f} mm")
        lines.append(f"{kind.capitalize()} knot: {', '.join(parts)}.")
    return tuple(lines)


def left_words(left_mm: float, layers: int, unit: DisplayUnit) -> str:
    """What is left of the cord, and whether it is worth keeping."""
    layer = " a layer" if layers > 1 else ""
    if left_mm >= WORTH_KEEPING_MM:
        return f"{show(left_mm, unit)} of cord{layer} left: worth keeping, long enough for test knots."
    return f"{show(left_mm, unit)} of cord{layer} left."
