"""Every knot and closure looked up from the bench."""

from __future__ import annotations

from companion.core.words.trade.how_to import names
from companion.tui.app import TallycordApp
from companion.tui.dialogs.show import ShowDialog
from tests.tui.screens import golden, until, until_seen


async def test_the_screens_as_they_read(workshop, size) -> None:
    name, dimensions = size
    app = TallycordApp(workshop)
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("l")
        golden(f"knots-{name}", await until_seen(pilot, "Knots and closures"))
        await pilot.press("down", "enter")
        golden(f"knots-double-{name}", await until_seen(pilot, "Double knot"))
        await pilot.press("escape")
        await until(pilot, lambda: not isinstance(app.screen, ShowDialog))
        await pilot.press(*["down"] * names().index("French wire and clasp"), *["up"], "enter")
        golden(f"knots-french-wire-{name}", await until_seen(pilot, "At the start"))
        await pilot.press("escape", "escape")
        await until_seen(pilot, "Bench")


async def test_a_click_opens_one(workshop) -> None:
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("l")
        await until_seen(pilot, "Knots and closures")
        await pilot.click("Rows", offset=(6, 2))
        await until_seen(pilot, "For a hole that a single knot slips into")
