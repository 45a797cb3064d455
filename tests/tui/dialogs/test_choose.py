"""A list to choose from: by arrows and Enter, by a number, with a click; left with Esc or q."""

from __future__ import annotations

import pytest

from companion.core.cord.cord import AS_DESIGNED, ESTIMATED
from companion.tui.app import TallycordApp
from companion.tui.dialogs.choose import ChoiceDialog, Choices
from companion.tui.widgets.rows import Row, Rows
from tests.tui.screens import until, until_seen

ROWS = (
    Row("Fruit"),
    Row("a pear", "pear"),
    Row("soft", detail=True),
    Row("a plum", "plum"),
    Row("Nuts"),
    Row("fig", 3),
)
LISTED = Choices("Which one?", lambda columns: ROWS)
NUMBERED = Choices("Which one?", lambda columns: ROWS, numbered=True)
NOTHING_YET = object()


async def chosen(workshop, choices: Choices, *keys: str, click: int | None = None) -> object:
    """What the dialog gives back."""
    app, given = TallycordApp(workshop), [NOTHING_YET]
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        app.push_screen(ChoiceDialog(choices), given.append)
        await until_seen(pilot, "Which one?")
        await pilot.press(*keys)
        if click is not None:
            await pilot.click(Rows, offset=(6, click))
        await until(pilot, lambda: len(given) == 2)
    return given[-1]


@pytest.mark.parametrize(
    ("keys", "value"),
    [
        (["enter"], "pear"),
        (["down", "space"], "plum"),
        (["down", "down", "down", "enter"], 3),
        (["down", "down", "up", "enter"], "plum"),
        (["2"], "plum"),
        (["9", "3"], 3),
        (["escape"], None),
        (["down", "q"], None),
        (["end", "enter"], 3),
        (["end", "home", "enter"], "pear"),
    ],
)
async def test_by_keys(workshop, keys, value) -> None:
    assert await chosen(workshop, LISTED, *keys) == value


@pytest.mark.parametrize(
    ("keys", "value"),
    [(["enter"], None), (["space"], None), (["down", "enter"], "pear"), (["up", "down", "down", "enter"], "plum")],
)
async def test_in_a_numbered_list_the_cursor_is_nowhere_until_it_is_moved(workshop, keys, value) -> None:
    assert await chosen(workshop, NUMBERED, *keys) == value


@pytest.mark.parametrize(("row", "value"), [(1, "pear"), (2, "pear"), (5, 3)])
async def test_with_a_click_on_a_row_or_what_belongs_to_it(workshop, row, value) -> None:
    assert await chosen(workshop, LISTED, click=row) == value
    assert await chosen(workshop, NUMBERED, click=row) == value


async def test_it_begins_where_it_is_told(workshop) -> None:
    rows = (Row("one", AS_DESIGNED), Row("other", ESTIMATED))
    choices = Choices("Which one?", lambda columns: rows, begin_with=ESTIMATED)
    assert await chosen(workshop, choices, "enter") == ESTIMATED


class HastyDialog(ChoiceDialog):
    """With a key that is done before anything is drawn."""

    def on_mount(self) -> None:
        self.call_next(self.action_cursor_up)


async def test_the_cursor_moves_from_where_the_list_begins_though_nothing_is_drawn_yet(workshop) -> None:
    app, dialog = TallycordApp(workshop), HastyDialog(Choices("Which one?", lambda columns: ROWS, begin_with="plum"))
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        app.push_screen(dialog)
        await until_seen(pilot, "› a pear")
        assert dialog.query_one(Rows).chosen == "pear"
