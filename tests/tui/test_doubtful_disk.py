"""A disk that does not say whether it keeps what was written: nothing is done a second time by mistake."""

from __future__ import annotations

import pytest

from companion.core.journal.events import Confirmed
from companion.core.values.errors import NotConfirmed
from companion.tui.app import CompanionApp
from tests.tui.screens import gone, until_seen

LOOK = "It may be stored: look at it before you do it again."
DOUBT = f"The disk does not confirm what was written: input/output error. {LOOK}"


async def test_a_piece_that_may_have_begun_is_looked_for_on_the_bench(workshop, skerry, monkeypatch) -> None:
    begin = workshop.start

    def doubtful(*given):
        begin(*given)
        raise NotConfirmed("The disk does not confirm what was written: input/output error. It may be stored.")

    monkeypatch.setattr(workshop, "start", doubtful)
    app = CompanionApp(workshop, design=skerry)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "It may be stored")
        await until_seen(pilot, "0 of 28")
    assert len(workshop.pieces()) == 1


@pytest.fixture
def doubting(workshop, other_window, monkeypatch):
    """From now on what is written is there, but the disk does not say so; called again, it does."""
    append = workshop._store.append

    def stored_but_not_confirmed(*event):
        other_window._store.append(*event)  # seen anew by this window, as after a real failure
        raise NotConfirmed(DOUBT)

    def doubt(on: bool) -> None:
        monkeypatch.setattr(workshop._store, "append", stored_but_not_confirmed if on else append)

    return doubt


@pytest.mark.parametrize("key", ["space", "enter", "u", "m"])
async def test_a_step_in_doubt_is_said_until_it_is_answered(app, other_window, doubting, key) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 28")
        doubting(True)
        await pilot.press("space")
        await until_seen(pilot, LOOK)
        doubting(False)
        for _ in range(3):
            app.screen.look_again()
            await pilot.pause()
        await until_seen(pilot, LOOK)
        await until_seen(pilot, "step 3 of 28")  # as it is in the file
        await pilot.press(key)
        await gone(pilot, LOOK)
        opened = other_window.open("skerry-bracelet")
        assert [entry.event for entry in other_window.journal(opened)][1:] == [Confirmed(1), Confirmed(2)]
        await pilot.press("space")
        await until_seen(pilot, "step 4 of 28")
