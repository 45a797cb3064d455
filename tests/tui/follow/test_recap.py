"""Coming back to a piece: all that is known at once, the rest when it is worked out."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from tests.tui.screens import screen_text, until_seen


async def test_what_is_known_stands_there_at_once_with_the_notes(workshop, begun) -> None:
    workshop.note(begun, "knots looser tonight")
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        text = await until_seen(pilot, "Last done: Sea-glass round, then a single knot. That is step 15 of 33.")
        assert "The strand should measure about 3 1/4 in" in text
        assert "Note at step 15: knots looser tonight" in text


async def test_a_design_that_has_changed_since_is_said(workshop, skerry, tmp_path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(skerry.read_text(encoding="utf-8"), encoding="utf-8")
    opened = workshop.confirm(workshop.start(path))
    path.write_text(path.read_text(encoding="utf-8") + "# another\n", encoding="utf-8")
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "The design file has changed since; the piece keeps its own copy.")


async def test_the_recap_says_what_is_to_be_expected_when_it_is_known(workshop, read, long_forecasts) -> None:
    app = TallycordApp(workshop, piece=read.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Last done")
        assert "The strand should measure" not in screen_text(app)
        long_forecasts.set()
        await until_seen(pilot, "The strand should measure about 3 1/4 in")


@pytest.mark.parametrize(("size", "here"), [((60, 18), 0), ((80, 24), 1), ((120, 40), 2)])
async def test_the_strand_stands_below_where_there_is_room(workshop, patterns, size, here) -> None:
    """Around the last step, in letters or drawn; the keys stay at the foot."""
    opened = workshop.jump(workshop.start(patterns / "bell-rock-rope.yaml"), 120)
    workshop.let_go()
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=size) as pilot:
        if here:
            await until_seen(pilot, "▲")
        text = await until_seen(pilot, "Next: Red granite")
        assert text.count("here") >= min(here, 1)
        assert bool(app.screen.query("StrandPicture")) == (here == 1)
        assert len(app.screen.query("DrawnPicture")) == (2 if here == 2 else 0)
        assert "Enter carry on" in text.splitlines()[-1]
