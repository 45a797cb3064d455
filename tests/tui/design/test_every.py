"""Every fifth bead: both readings as pictures, and she picks."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.tui.app import TallycordApp
from companion.tui.design.every import EveryDialog
from companion.tui.routes import ToDraft
from tests.tui.design.test_screen import CUFF, own
from tests.tui.screens import golden, until, until_seen

__all__ = ["own"]


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 40)], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize(("key", "pattern"), [("1", "PPPPS"), ("2", "PPPPPS")])
async def test_both_readings_and_one_is_picked(own, size, key, pattern) -> None:
    own.drafts.keep(replace(CUFF, pattern=""))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=size) as pilot:
        await until_seen(pilot, "Inner Farne cuff")
        page = app.screen
        await pilot.press("E")
        await until_seen(pilot, "Every how many? A whole number from 2 to 99.")
        await pilot.press("5", "enter", "enter", "enter")
        await until(pilot, lambda: isinstance(app.screen, EveryDialog))
        text = await until_seen(pilot, "2 5 + 1: PPPPPS, 190 mm long")
        assert "1  4 + 1: PPPPS, 205 mm long" in text
        golden("design-every-{}x{}".format(*size), text)
        await pilot.press(key)
        await until(pilot, lambda: app.screen is page)
        assert page.draft == own.drafts.kept() == replace(CUFF, pattern=pattern)


async def test_neither_leaves_it_as_it_was(own) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It will be")
        page = app.screen
        await pilot.press("E")
        await until_seen(pilot, "Every how many?")
        await pilot.press("1", "enter", "enter", "enter")  # no such thing: it stays to be typed again
        await until_seen(pilot, "A whole number from 2 to 99.")
        await pilot.press("2", "enter", "enter", "enter")
        await until(pilot, lambda: isinstance(app.screen, EveryDialog))
        await pilot.press("escape")
        await until(pilot, lambda: app.screen is page)
        assert page.draft == CUFF


async def test_it_takes_two_kinds(own) -> None:
    own.drafts.keep(replace(CUFF, beads=CUFF.beads[:1], pattern="P"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It will be")
        await pilot.press("E")
        await until_seen(pilot, "That takes two kinds of bead: describe them first.")
