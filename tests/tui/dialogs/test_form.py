"""A few lines to fill in: taken as one value with what was typed, asked about once where it can hardly be right."""

from __future__ import annotations

import pytest

from companion.core.words.notices import Notice
from companion.tui.app import TallycordApp
from companion.tui.dialogs.form import Field, Filled, Form, FormDialog, FormJudged, Values
from tests.tui.screens import gone, until, until_seen


def judge(values: Values) -> FormJudged[str]:
    if not values["bead"]:
        return FormJudged(None, (Notice("quiet", "Which bead?"),), at="bead")
    told = f"{values['bead']} in {values['colour']}"
    return FormJudged(
        told, (Notice("quiet", f"That is {told}."),), "Black pearls? Once more." if "black" in told else ""
    )


FORM = Form("Beads", (Field("bead", "bead"), Field("colour", "colour", "white", choices=("white", "black"))), judge)


@pytest.fixture
def given() -> list[object]:
    """What the dialog gives back."""
    return []


async def asked(pilot, given: list[object]) -> None:
    await until_seen(pilot, "Esc quit")
    pilot.app.push_screen(FormDialog(FORM), given.append)
    await until_seen(pilot, "Which bead?")


async def test_it_is_taken_as_a_value_with_what_was_typed(workshop, given) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        await asked(pilot, given)
        await pilot.press(*"pearl")
        await until_seen(pilot, "That is pearl in white.")
        await pilot.press("enter", "enter")
        await until(pilot, lambda: given == [Filled("pearl in white", {"bead": "pearl", "colour": "white"})])


async def test_what_can_not_be_taken_goes_back_to_its_line(workshop, given) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        await asked(pilot, given)
        await pilot.press("down", "enter")
        await until_seen(pilot, "▲ Which bead?")
        await pilot.press(*"agate")
        await until_seen(pilot, "That is agate in white.")
        assert given == []


async def test_what_can_hardly_be_right_is_asked_about_once(workshop, given) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        await asked(pilot, given)
        await pilot.press(*"pearl", "enter", "right", "enter")
        await until_seen(pilot, "▲ Black pearls? Once more.")
        await pilot.press("left")
        await gone(pilot, "Once more.")
        await pilot.press("right", "enter")
        await until_seen(pilot, "▲ Black pearls? Once more.")
        assert given == []
        await pilot.press("enter")
        await until(pilot, lambda: given == [Filled("pearl in black", {"bead": "pearl", "colour": "black"})])


async def test_a_form_that_is_left_gives_nothing(workshop, given) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        await asked(pilot, given)
        await pilot.press(*"pearl", "escape")
        await until_seen(pilot, "Esc again leaves it, and what you typed here is lost.")
        assert given == []
        await pilot.press("s")  # typing on, she means to stay: the next Esc asks again
        await gone(pilot, "Esc again leaves it")
        await pilot.press("escape")
        await until_seen(pilot, "Esc again leaves it")
        await pilot.press("escape")
        await until(pilot, lambda: given == [None])


async def test_a_form_in_which_nothing_was_typed_is_left_at_once(workshop, given) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        await asked(pilot, given)
        await pilot.press("escape")
        await until(pilot, lambda: given == [None])
