"""New cord, chosen from the list of ways out, from the alarm to undo."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.tui.app import TallycordApp
from companion.tui.widgets.rows import Rows
from tests.tui.screens import gone, until, until_seen
from tests.tui.test_what_went_wrong import at_step, begun, measure


@pytest.fixture
def wide_holes(skerry: Path, tmp_path: Path) -> Path:
    """The Skerry bracelet with beads that four cords go through."""
    text = skerry.read_text("utf-8").replace("hole: 1 mm", "hole: 3 mm").replace("hole: 1.2 mm", "hole: 3 mm")
    path = tmp_path / "wide.yaml"
    path.write_text(text, "utf-8")
    return path


async def choose_join(pilot, app) -> None:
    """Choose new cord from the ways out."""
    await pilot.press("w")
    await until_seen(pilot, "What to do")
    ways = app.screen.query_one(Rows).values
    await pilot.press(str(next(number for number, way in enumerate(ways, start=1) if way.join)))
    await until_seen(pilot, "How much does each cord gain? Do not count the overlap.")


@pytest.mark.parametrize("size", [(60, 18), (80, 24)], ids=["60x18", "80x24"])
async def test_new_cord_chosen_said_at_its_bead_joined_and_undone(workshop, wide_holes, size) -> None:
    app = TallycordApp(workshop, design=wide_holes)
    async with app.run_test(size=size) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 16)
        for _ in range(2):  # a reading so far off is asked for once more
            await measure(pilot, app, "c", "130 mm")
        await choose_join(pilot, app)
        await pilot.press("escape")  # not yet: it is joined at a bead still to come
        place = join_step(app)
        assert place > 17
        await at_step(pilot, app, place - 1)
        await until_seen(pilot, "Join the new cord in this step, inside the sea-glass round.")
        await choose_join(pilot, app)
        await pilot.press("8", "enter")
        await until_seen(pilot, "New cord is on: 8 in of each cord more. u undoes it.")
        assert [join.step for join in app.screen.opened.piece.joins] == [place - 1]
        await gone(pilot, "Join the new cord in this step")
        await pilot.press("u")
        await until_seen(pilot, "Undone: the 8 in of new cord.")
        await until_seen(pilot, "Join the new cord in this step, inside the sea-glass round.")
        await until(pilot, lambda: not app.screen.opened.piece.joins)


def join_step(app) -> int:
    from companion.core.forecast.join_place import join_place

    place = join_place(app.screen.opened.plan, app.screen.session.outlook_at_once())
    assert place is not None
    return place.step
