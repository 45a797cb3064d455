"""The same keys move through every page that is longer than the screen."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from companion.tui.moving import MovesThrough
from companion.tui.routes import ToBench
from tests.tui.screens import screen_text, until, until_seen
from tests.tui.states import to_state

MAY_FIT = ("which-piece", "cords")
ONE_OF_EACH = (
    "bench-under-way", "start", "which-piece", "design-plan", "recap", "steps-middle", "plan-middle", "result", "cords",
    "card", "knots", "settings", "draft-whole",
)  # fmt: skip


@pytest.mark.parametrize("state", ONE_OF_EACH)
async def test_every_page_that_scrolls_takes_the_same_keys(workshop, skerry, state) -> None:
    app = TallycordApp(workshop, first=ToBench())
    async with app.run_test(size=(60, 12)) as pilot:
        await until_seen(pilot, "Bench")
        await to_state(pilot, state, skerry)
        page = app.screen
        if not isinstance(page, MovesThrough):
            assert state.startswith("steps")  # there Page Down is a pedal
            return
        where = page.moved
        assert where.max_scroll_y or state in MAY_FIT
        if where.max_scroll_y == 0:
            return
        await pilot.press("home")
        for key, back in (("end", "home"), ("pagedown", "pageup"), ("end", "pageup")):
            before = await until_seen(pilot, "?")
            await pilot.press(key)
            await until(pilot, lambda was=before: screen_text(app) != was)
            there = await until_seen(pilot, "?")
            await pilot.press(back)
            await until(pilot, lambda was=there: screen_text(app) != was)
            await pilot.press("home")
            await until(pilot, lambda: where.scroll_offset.y == 0)
