"""A page to read, closed by a key or a click; a command on it that is clicked is given back."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from companion.tui.commands import NOTE
from companion.tui.dialogs.show import ShowDialog
from companion.tui.widgets.paragraphs import CommandText
from companion.tui.widgets.text import KeyLine
from tests.tui.screens import until, until_seen


@pytest.mark.parametrize("key", ["escape", "q", "enter", "space"])
async def test_keys_close_it(workshop, key) -> None:
    given: list[object] = []
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        pilot.app.push_screen(ShowDialog("A page", CommandText(NOTE, "n   Write", 4)), given.append)
        await until_seen(pilot, "n Write")
        await pilot.press(key)
        await until(pilot, lambda: given == [None])


@pytest.mark.parametrize(("place", "command"), [(CommandText, NOTE), (KeyLine, None)])
async def test_a_click_gives_the_command_back_or_closes_it(workshop, place, command) -> None:
    given: list[object] = []
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        pilot.app.push_screen(ShowDialog("A page", CommandText(NOTE, "n   Write", 4)), given.append)
        await until_seen(pilot, "n Write")
        await pilot.click(place, offset=(2, 0))
        await until(pilot, lambda: given == [command])
