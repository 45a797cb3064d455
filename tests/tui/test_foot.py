"""A key that the foot names does something, whatever the page and however it stands."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from companion.tui.bench.sketching import Sketching
from companion.tui.routes import ToBench
from companion.tui.widgets.text import KeyLine
from tests.tui.screens import screen_text, until, until_seen
from tests.tui.states import STATES, to_state


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
