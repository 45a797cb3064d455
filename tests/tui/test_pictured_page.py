"""Pages that show the whole piece: from 100 columns on, and below that all that they had."""

from __future__ import annotations

import shutil

import pytest

from companion.tui.app import TallycordApp
from companion.tui.pictured_page import PicturedPage
from tests.tui.screens import golden, screen_text, until, until_drawn, until_seen

LARGE = {"100x30": (100, 30), "120x40": (120, 40), "200x60": (200, 60)}
HOSTILE = "[@click=app.quit]x[/] \\[b]"


@pytest.fixture(params=LARGE)
def large(request) -> tuple[str, tuple[int, int]]:
    return request.param, LARGE[request.param]


@pytest.fixture
def finished(workshop, skerry, tmp_path):
    place = tmp_path / "skerry.yaml"
    shutil.copy(skerry, place)
    opened = workshop.jump(workshop.start(place), 15)
    opened = workshop.measure(opened, "strand", 79.0, "79 mm")
    opened = workshop.note(opened, f"sea-glass from the north beach {HOSTILE}")
    opened = workshop.finish(workshop.jump(opened, 33), 202.0, 210.0)
    workshop.let_go()
    return opened


async def test_start(app, large) -> None:
    name, dimensions = large
    async with app.run_test(size=dimensions) as pilot:
        text = await until_drawn(pilot, "when closed")
        golden(f"start-{name}", text)
        assert text.index("would run out") < text.index("when closed") < text.index("Count out")


async def test_result(workshop, finished, large) -> None:
    name, dimensions = large
    app = TallycordApp(workshop, piece=finished.name)
    async with app.run_test(size=dimensions) as pilot:
        text = await until_drawn(pilot, "came out")
        golden(f"result-drawn-{name}", text)
        assert HOSTILE in " ".join(text.split())


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24), (99, 30)])
async def test_below_a_hundred_columns_it_is_the_text_alone(workshop, finished, dimensions) -> None:
    app = TallycordApp(workshop, piece=finished.name)
    async with app.run_test(size=dimensions) as pilot:
        text = await until_seen(pilot, "worth keeping")
        assert not set("▀▄") & set(text)


async def test_wider_and_narrower_again(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        narrow = await until_seen(pilot, "Enter begin")
        await pilot.resize_terminal(120, 40)
        await until_drawn(pilot, "when closed")
        await pilot.resize_terminal(80, 24)
        await until(pilot, lambda: "▀" not in screen_text(app))
        assert await until_seen(pilot, "Enter begin") == narrow


async def test_tab_goes_from_heading_to_heading_of_what_shows(app) -> None:
    async with app.run_test(size=(100, 30)) as pilot:
        await until_drawn(pilot, "when closed")
        tops = []
        for _ in range(3):
            app.screen.action_next_section()
            await pilot.pause()
            tops.append(app.screen.query_one("#page").scroll_y)
        assert 0 < tops[0] <= tops[1] <= tops[2]
        assert "Take care" in screen_text(app)
        for _ in range(9):
            app.screen.action_last_section()
            await pilot.pause()
        assert app.screen.query_one("#page").scroll_y == 0


async def test_an_entered_cut_stands_under_the_planned_one(app) -> None:
    async with app.run_test(size=(120, 40)) as pilot:
        await until_drawn(pilot, "when closed")
        await pilot.press("c", *"45 in", "enter")
        text = await until_seen(pilot, "you cut 45 in")
        assert text.index("would run out)") < text.index("you cut") < text.index("when closed")
        assert "less than planned" in text


async def test_another_card_changes_the_large_figure(carded, skerry) -> None:
    app = TallycordApp(carded, design=skerry)
    async with app.run_test(size=(120, 40)) as pilot:
        before = (await until_drawn(pilot, "when closed")).split("Count out")[0]
        await pilot.press("k")
        await until_seen(pilot, "as the design says")
        await pilot.press("down", "enter")
        await until_seen(pilot, "Planned by the card skerry silk.")
        assert (await until_drawn(pilot, "when closed")).split("Count out")[0] != before


@pytest.mark.parametrize("design", ["inner-farne-strands", "portland-bill-key-cord", "bell-rock-rope"])
async def test_every_kind_of_piece_has_its_spread(workshop, patterns, design, monkeypatch) -> None:
    app = TallycordApp(workshop, design=patterns / f"{design}.yaml")
    async with app.run_test(size=(100, 30)) as pilot:
        await until_drawn(pilot, "Enter begin")
        assert isinstance(app.screen, PicturedPage)
    monkeypatch.setenv("NO_COLOR", "1")
    app = TallycordApp(workshop, design=patterns / f"{design}.yaml")
    async with app.run_test(size=(100, 30)) as pilot:
        await until_seen(pilot, "┬")
        assert not app.screen.has_class("-drawn")
