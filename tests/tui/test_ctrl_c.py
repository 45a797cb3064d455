"""Ctrl+C ends nothing and says, in our words, how to leave."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from tests.tui.screens import screen_text, until_seen

TOOLKIT_S_OWN = "Do you want to quit?"


@pytest.mark.parametrize("size", [(60, 18), (80, 24)])
async def test_on_every_page_and_question(workshop, skerry, tmp_path, monkeypatch, size) -> None:
    monkeypatch.chdir(tmp_path)
    opened = workshop.start(skerry)
    for _ in range(3):
        opened = workshop.confirm(opened)
    app = TallycordApp(workshop)
    async with app.run_test(size=size) as pilot:
        await until_seen(pilot, "Under way")

        async def says_how_to_leave(words: str) -> None:
            await pilot.press("ctrl+c")
            await until_seen(pilot, words)
            assert TOOLKIT_S_OWN not in screen_text(app)
            assert app.is_running

        await says_how_to_leave("Esc leaves Tallycord. Nothing is lost.")
        await pilot.press("slash")
        await says_how_to_leave("Esc closes this without changing anything.")
        await pilot.press("escape", "enter")
        await until_seen(pilot, "That is step 3 of 33")
        await says_how_to_leave("Esc goes back to the bench")
        await pilot.press("enter")
        await until_seen(pilot, "step 4 of 33")
        await says_how_to_leave("Esc goes back to the bench, and Esc there leaves Tallycord.")
        await pilot.press("m")
        await until_seen(pilot, "should measure")
        await says_how_to_leave("Esc closes this without changing anything.")
        await pilot.press("escape", "question_mark")
        await until_seen(pilot, "Keys and marks")
        await says_how_to_leave("Esc closes this without changing anything.")
        await pilot.press("escape", "escape", "k")
        await until_seen(pilot, "No cord cards yet.")
        await says_how_to_leave("Esc goes back to the bench")
        assert workshop.open("skerry").piece.done == 3
