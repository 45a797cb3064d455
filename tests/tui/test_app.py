"""The day's copy, as the app keeps it while the maker goes on."""

from __future__ import annotations

from pathlib import Path

from tests.tui.screens import screen_text, until, until_seen


async def test_the_app_keeps_a_copy(app, other_window, skerry: Path, data_folder: Path) -> None:
    other_window.start(skerry)
    other_window.close()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: list(data_folder.glob("backups/tallycord-*.db")) != [])


async def test_a_copy_that_can_not_be_kept_is_said_once(app, other_window, skerry: Path, data_folder: Path) -> None:
    other_window.start(skerry)
    (data_folder / "backups").write_text("in the way")
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(pilot, "No copy of the pieces could be kept today. Nothing was saved: file exists.")
        assert not app._notifications  # nothing lies over the work
        await pilot.press("space")
        await until_seen(pilot, "step 2 of 33")
        await until(pilot, lambda: "No copy" not in screen_text(app))
        app.keep_a_copy()
        await app.workers.wait_for_complete()
        await pilot.press("space")
        await until_seen(pilot, "step 3 of 33")
        assert "No copy" not in screen_text(app)
        assert app.untold == ""
