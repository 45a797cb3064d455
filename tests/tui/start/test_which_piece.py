"""Several pieces of one design."""

from __future__ import annotations

from companion.tui.app import TallycordApp
from tests.tui.screens import until_seen


async def test_several_pieces_ask_which(workshop, skerry) -> None:
    first, second = workshop.start(skerry), workshop.start(skerry)
    workshop.confirm(second)
    app = TallycordApp(workshop, design=skerry)
    async with app.run_test(size=(60, 18)) as pilot:
        text = await until_seen(pilot, "Which one?")
        assert first.name in text
        assert second.name in text
        await pilot.press("enter")
        await until_seen(pilot, "Last done")
    app = TallycordApp(workshop, design=skerry, new=True)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
