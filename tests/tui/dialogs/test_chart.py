"""The readings' chart over the work and on the result: the chart, its numbers one key away, and back."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from companion.tui.commands import CHART_AGAIN, CHART_AS_TABLE
from companion.tui.dialogs.chart import ChartDialog
from companion.tui.follow.screen import FollowScreen
from companion.tui.piece.result_page import ResultScreen
from companion.tui.widgets.text import KeyLine
from tests.tui.screens import golden, screen_text, until, until_seen

READ = (
    (8, "26.5 mm"),
    (10, "60 mm"),
    (12, "58.5 mm"),
    (15, "77 mm"),
    (18, "92 mm"),
    (20, "107 mm"),
)  # a bead missed after step 12


@pytest.fixture
def read(workshop, skerry):
    """A piece that was read six times; the second reading fits no other."""
    opened = workshop.start(skerry)
    for step, typed in READ:
        opened = workshop.jump(opened, step)
        opened = workshop.measure(opened, "strand", float(typed.split()[0]), typed)
    return opened


async def follow(pilot) -> None:
    await until_seen(pilot, "Last done")
    await pilot.press("enter")
    await until(pilot, lambda: isinstance(pilot.app.screen, FollowScreen))


async def test_the_chart_the_numbers_and_back(workshop, read, size) -> None:
    name, dimensions = size
    app = TallycordApp(workshop, piece=read.name)
    async with app.run_test(size=dimensions) as pilot:
        await follow(pilot)
        await pilot.press("v")
        golden(f"chart-{name}", await until_seen(pilot, "still to come"))
        await pilot.press("v")
        golden(f"chart-numbers-{name}", await until_seen(pilot, "after step"))
        await pilot.press("v")
        await until_seen(pilot, "still to come")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        assert workshop.open(read.name).revision == read.revision  # looking changes nothing


async def test_at_60_by_18_all_of_it_is_on_the_screen(workshop, read) -> None:
    app = TallycordApp(workshop, piece=read.name)
    async with app.run_test(size=(60, 18)) as pilot:
        await follow(pilot)
        await pilot.press("v")
        text = await until_seen(pilot, "still to come")
        for words in (
            "▲ here",
            "▼ a bead missed?",
            "○ set aside",
            "as near as you asked",
            "there should be",
            "v numbers",
        ):
            assert words in text, words


async def test_a_click_on_the_key_line_does_the_same(workshop, read) -> None:
    app = TallycordApp(workshop, piece=read.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await follow(pilot)
        await pilot.press("v")
        await until_seen(pilot, "still to come")
        await pilot.click(KeyLine, offset=(1, 0))
        await until_seen(pilot, "after step")
        assert app.screen.query_one(KeyLine).commands[0] is CHART_AGAIN
        await pilot.click(KeyLine, offset=(1, 0))
        await until_seen(pilot, "still to come")
        assert app.screen.query_one(KeyLine).commands[0] is CHART_AS_TABLE


async def test_a_finished_piece_shows_how_it_came_out(workshop, read) -> None:
    workshop.finish(workshop.jump(read, 33), 195.0, None)
    app = TallycordApp(workshop, piece=read.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It came out")
        await pilot.press("v")
        text = await until_seen(pilot, "◆ came out")
        assert "▲ here" not in text
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, ResultScreen))


async def test_before_the_first_reading_it_says_so(workshop, skerry) -> None:
    app = TallycordApp(workshop, piece=workshop.start(skerry).name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        await pilot.press("v")
        await until_seen(pilot, "Nothing is measured yet")


async def test_several_strands_have_a_chart_each(workshop, patterns) -> None:
    opened = workshop.start(patterns / "inner-farne-strands.yaml")
    workshop.jump(opened, len(opened.plan.strands[0].steps) + 9)
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 40)) as pilot:
        await follow(pilot)
        await pilot.press("v")
        text = await until_seen(pilot, "(middle)")
        assert isinstance(app.screen, ChartDialog)
        assert len(app.screen.drifts) == 2
        await pilot.press("end")
        await until(pilot, lambda: "(upper)" in screen_text(app))
        assert "(lower)" not in text + screen_text(app)


async def test_a_hostile_name_is_shown_as_text(workshop, patterns, tmp_path) -> None:
    text = (patterns / "inner-farne-strands.yaml").read_text("utf-8")
    place = tmp_path / "mine.yaml"
    place.write_text(text.replace("name: upper", "name: '[red]up[red] $secondary'"), "utf-8")
    opened = workshop.start(place)
    workshop.jump(opened, 12)
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await follow(pilot)
        await pilot.press("v")
        await until_seen(pilot, "([red]up[")
