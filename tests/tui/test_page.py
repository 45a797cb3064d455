"""What every page does."""

from __future__ import annotations

from tests.tui.screens import until, until_seen


async def test_all_colours_can_be_chosen(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        seen = []
        for _ in range(4):
            seen.append(app.theme)
            await pilot.press("t")
            await until(pilot, lambda before=seen[-1]: app.theme != before)
        assert len(set(seen)) == 4
        assert app.theme == seen[0]
