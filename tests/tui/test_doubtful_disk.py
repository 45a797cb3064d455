"""A disk that does not say whether it keeps what was written: nothing is done a second time by mistake."""

from __future__ import annotations

from companion.core.values.errors import NotConfirmed
from companion.tui.app import CompanionApp
from tests.tui.screens import until_seen


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
