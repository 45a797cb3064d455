"""A cord card fed row by row: what each row would mean before it is taken, and taking it back."""

from __future__ import annotations

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Touching
from companion.core.values.errors import NotStored
from companion.core.words.card_words import card_test_words
from companion.tui.app import TallycordApp
from companion.tui.dialogs.form import FormDialog
from tests.tui.cards import SILK_TESTS, SIXTEENTH, to_form
from tests.tui.screens import until, until_seen


@pytest.mark.parametrize(("before", "after", "asked"), [("200", "180", "44 times"), ("200", "200", "used up no cord")])
async def test_what_can_hardly_be_is_asked_about_once(carded, before, after, asked) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")
        await pilot.press("up", "up", "ctrl+u", "1", "down", "down", *before, "enter", *after, "enter", "enter")
        text = await until_seen(pilot, "Press Enter again to accept it anyway.")
        assert asked in " ".join(text.split())
        assert carded.card("skerry silk").tests == SILK_TESTS
        await pilot.press("enter")
        await until_seen(pilot, "Saved:")
        assert len(carded.card("skerry silk").tests) == len(SILK_TESTS) + 1


async def test_what_can_not_be_is_not_taken(carded) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")
        for _ in range(3):
            await pilot.press("up", "up", "up", "up", "up", "down", "down", "down", "ctrl+u", *"194 mm", "enter")
            await pilot.press("ctrl+u", *"200 mm", "enter", "enter")
            await until_seen(pilot, "▲ The cord is longer after the knots than before")
        assert carded.card("skerry silk").tests == SILK_TESTS


async def test_a_row_that_is_not_stored_is_not_shown_and_stays_typed(carded, monkeypatch) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")

        def full(*_: object) -> None:
            raise NotStored("The disk is full: nothing was saved. Make room, then enter it again.")

        with monkeypatch.context() as broken:
            broken.setattr(carded.cord_cards._store, "add", full)
            await pilot.press(*"30 cm", "enter", *"29.4 cm", "enter", "enter")
            await until_seen(pilot, "▲ The disk is full")
        assert app.screen.values["after"] == "29.4 cm"
        await pilot.press("down", "down", "enter")
        await until_seen(pilot, "Saved:")
        assert len(carded.card("skerry silk").tests) == len(SILK_TESTS) + 1


async def test_nothing_to_take_back(carded) -> None:
    carded.add_tests(CordCard("bare", 1.0, 1))
    app = TallycordApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("k", "enter")
        await until_seen(pilot, "Cord card · bare")
        await pilot.press("x")
        await until_seen(pilot, "There is no row to take out.")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FormDialog))


def test_an_entry_is_told_as_it_was_typed() -> None:
    assert [card_test_words(test) for test in SILK_TESTS] == [
        "single, 10 knots: 30 cm before, 23.8 cm after, take-up 6.20 mm each",
        "single, 1 knot: 200 mm before, 194 mm after, take-up 6.00 mm",
        "single, 5 knots: touching row 10 mm, length 2.00 mm each",
    ]
    untyped = CardTest("double", Row(254.0, 241.3, 1, SIXTEENTH), Touching(9.0, 1, SIXTEENTH))
    told = card_test_words(untyped)
    assert told.startswith("double, 1 knot: 10 in before, 9 1/2 in after, take-up 12.70 mm, touching")
