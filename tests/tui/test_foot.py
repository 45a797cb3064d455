"""A key that the foot names does something, whatever the page and however it stands."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from companion.tui.bench.sketching import Sketching
from companion.tui.dialogs.dialog import Dialog
from companion.tui.moving import MovesThrough
from companion.tui.page import Page
from companion.tui.routes import ToBench
from companion.tui.widgets.text import KeyLine
from tests.tui.screens import screen_text, until, until_seen
from tests.tui.states import STATES


async def to_state(pilot, state: str, skerry) -> str:
    """Close what is open, go there, and wait until it stands; the whole screen."""
    app = pilot.app
    while isinstance(app.screen, Dialog):
        app.screen.dismiss(None)
        await pilot.pause()
    before = app.screen
    app.go(STATES[state](app.workshop, skerry))
    await until(pilot, lambda: app.screen is not before and isinstance(app.screen, Page) and app.takes_keys())
    return await until_seen(pilot, "?")


@pytest.fixture(autouse=True)
def nothing_comes_by_itself(monkeypatch, tmp_path) -> None:
    """No design lies here, and the bench shows no more than its rows: what changes, a key has changed."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(Sketching, "read_next", lambda self: None)


@pytest.mark.parametrize("state", STATES)
async def test_each_key_at_the_foot_does_something(workshop, skerry, state) -> None:
    app = TallycordApp(workshop, first=ToBench())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Bench")
        await to_state(pilot, state, skerry)
        keys = [command.keys.split(",")[0] for *_, command in app.screen.query_one(KeyLine).shown()]
        for key in keys:
            before, page = await to_state(pilot, state, skerry), app.screen
            await pilot.press(key)
            await until(
                pilot, lambda page=page, was=before: app._exit or app.screen is not page or screen_text(app) != was
            )


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
