"""The colours of a drawn picture: each bead's own, to be seen on the page it is drawn on."""

from __future__ import annotations

import pytest
from textual.color import Color

from companion.core.values.colour_sets import COLOUR_SETS
from companion.core.values.design import BeadKind
from companion.tui.app import TallycordApp
from companion.tui.widgets.palettes import page_colours, palette_of, palette_on
from tests.core.hand_plans import hand_plan
from tests.tui.painted import contrast

COLOURS = ("white", "pearl", "yellow", "red", "teal", "navy", "black", "no such colour")
BEADS = tuple(BeadKind(colour, colour, 6, 6, 1, colour) for colour in COLOURS)


@pytest.mark.parametrize("name", COLOUR_SETS)
async def test_every_colour_is_seen_on_the_page(workshop, monkeypatch, name) -> None:
    """3 to 1 for what is drawn. Source: WCAG 2.2, 1.4.11 non-text contrast."""
    monkeypatch.setenv("COLORTERM", "truecolor")
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)):
        app.theme = name
        palette = palette_of(app, hand_plan(beads=BEADS))
        assert palette.ground == Color.parse(app.current_theme.background).rgb
        plain = palette_on(page_colours(app), hand_plan(beads=BEADS), lettered=False)
        for colour in (*palette.beads.values(), *plain.beads.values(), palette.cord, palette.accent):
            assert contrast(colour, palette.ground) >= 3


async def test_beads_without_letters_are_nearer_to_their_own_colour(workshop) -> None:
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)):
        app.theme = "day-contrast"
        lettered, plain = (
            palette_on(page_colours(app), hand_plan(beads=BEADS), lettered) for lettered in (True, False)
        )
        assert sum(plain.beads["pearl"]) > sum(lettered.beads["pearl"])
