"""A cord card in one line, as the bench shows it."""

from __future__ import annotations

from companion.core.cards import Card, half95_mm, knot_figures
from companion.core.design import KNOT_KINDS

LAYERS = {1: "", 2: ", doubled", 3: ", tripled"}


def card_in_short(card: Card) -> str:
    """ "twisted silk 0.45, doubled: 6.1 ± 0.8 mm a single knot (5 tests)"."""
    layers = LAYERS.get(card.layers, f", {card.layers} layers")
    parts = []
    for kind in KNOT_KINDS:
        tests = sum(test.kind == kind for test in card.tests)
        if tests:
            figures = knot_figures(card, kind)
            half = half95_mm(figures.take_up_sd_mm, figures.degrees)
            word = "test" if tests == 1 else "tests"
            parts.append(f"{figures.take_up_mm:.1f} ± {half:.1f} mm a {kind} knot ({tests} {word})")
    return f"{card.name} {card.diameter_mm:.4g}{layers}: {', '.join(parts) or 'no tests yet'}"
