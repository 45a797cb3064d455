"""The forms of the cord screens: what each line expects."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from tests.tui.cards import SILK_TESTS, to_form
from tests.tui.screens import until, until_seen


@pytest.mark.parametrize(
    ("line", "typed", "said"),
    [
        ("knots", "0", "How many knots?"),
        ("knots", "x", "How many knots?"),
        ("before", "[red]8", "8"),
        ("row", "-3 mm", "-3"),
        ("row", "900 mm", "times as long as the cord is thick"),
    ],
)
async def test_each_line_says_what_it_expects(carded, line, typed, said) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")
        app.screen.entry(line).focus()
        await pilot.press("ctrl+u", *typed)
        await until(pilot, lambda: app.screen.values[line] == typed)
        await until_seen(pilot, said)
        assert carded.card("skerry silk").tests == SILK_TESTS


async def test_a_name_that_is_taken_and_a_diameter_out_of_the_way(carded) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("k", "plus")
        await until_seen(pilot, "New cord card")
        await pilot.press(*"Skerry Silk")
        await until_seen(pilot, "There is a card named Skerry Silk already")
        await pilot.press("2", "enter", *"12 mm", "enter", "enter", "enter", "enter")
        await until_seen(pilot, "Cord of 12 mm is unusual. Press Enter again")
        await pilot.press("enter")
        await until_seen(pilot, "Cord card · Skerry Silk2")
