"""The one under the cursor, drawn at the right from 100 columns on."""

from __future__ import annotations

import re
import shutil

import pytest

from companion.tui.app import TallycordApp
from companion.tui.bench.chosen import Chosen
from companion.tui.routes import ToCard, ToDesign, ToPiece
from companion.tui.widgets.text import KeyLine
from tests.tui.screens import golden, screen_text, until, until_bench_drawn, until_seen

LARGE = {"100x30": (100, 30), "120x40": (120, 40), "200x60": (200, 60)}
NOTE = "teal beads from the north beach [@click=app.quit]x[/]"


@pytest.fixture
def pieces(workshop, patterns, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", str(tmp_path))
    for name in ("wolf-rock-necklace", "fastnet-cuff", "skerry-bracelet"):
        place = tmp_path / "own" / f"{name}.yaml"
        place.parent.mkdir(exist_ok=True)
        shutil.copy(patterns / f"{name}.yaml", place)
        opened = workshop.start(place)
        opened = workshop.jump(opened, opened.plan.total_steps // 2)
    opened = workshop.note(opened, NOTE)
    workshop.let_go()
    return workshop


@pytest.mark.parametrize("name", LARGE)
async def test_the_bench_with_the_chosen_one_beside_it(pieces, name) -> None:
    app = TallycordApp(pieces)
    async with app.run_test(size=LARGE[name]) as pilot:
        text = await until_bench_drawn(pilot)
        golden(f"bench-drawn-{name}", re.sub(r"just now", "(when)  ", text))
        assert "Skerry bracelet · wrist 6 1/2 in" in text
        assert "7 15/16 in (202 mm) when closed" in text
        assert "Cut 47 in (1194 mm) of twisted silk" in text
        words = " ".join(line[LARGE[name][0] * 6 // 10 :].strip() for line in text.split("\n"))
        assert NOTE in " ".join(words.split())


async def test_moving_on_draws_the_next_one(pieces, patterns) -> None:
    app = TallycordApp(pieces)
    async with app.run_test(size=(120, 40)) as pilot:
        await until_bench_drawn(pilot)
        before = screen_text(app)
        await pilot.press("down")
        text = await until_seen(pilot, "Fastnet cuff · wrist 170 mm")
        assert "north beach" not in text
        assert text != before
        app.screen.rows.begin_with(
            ToDesign(next(p for p in pieces.shipped_designs() if p.stem == "girdle-ness-anklet"))
        )
        await until_seen(pilot, "Girdle Ness anklet · length 24 cm")
        app.screen.rows.to_first()
        await until_seen(pilot, "Skerry bracelet · wrist 6 1/2 in")


async def test_a_finished_one_says_how_it_came_out_and_what_was_really_cut_is_told(pieces) -> None:
    opened = pieces.open("fastnet-cuff")
    pieces.finish(pieces.jump(opened, opened.plan.total_steps), 230.0)
    opened = pieces.enter_cut(pieces.jump(pieces.open("skerry-bracelet"), 0), 0, 1220.0, "48 in")
    pieces.let_go()
    app = TallycordApp(pieces)
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(pilot, "Cut 48 1/16 in of twisted silk")
        app.screen.rows.begin_with(ToPiece("fastnet-cuff"))
        await until_seen(pilot, "It came out at 230 mm, 4 mm over 226 mm")


async def test_the_foot_is_as_wide_as_the_screen(pieces) -> None:
    app = TallycordApp(pieces)
    async with app.run_test(size=(120, 40)) as pilot:
        await until_bench_drawn(pilot)
        assert app.screen.query_one(KeyLine).size.width == 118
        assert app.screen.rows.size.width == 72
        assert app.screen.query_one(Chosen).region.right == 120


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24), (99, 40)])
async def test_below_a_hundred_columns_the_list_has_all_the_width(pieces, dimensions) -> None:
    app = TallycordApp(pieces)
    async with app.run_test(size=dimensions) as pilot:
        text = await until_bench_drawn(pilot)
        assert not app.screen.query(Chosen)
        assert app.screen.rows.size.width >= dimensions[0] - 1
        assert ") when closed" not in text


async def test_narrower_again_it_is_gone(pieces) -> None:
    app = TallycordApp(pieces)
    async with app.run_test(size=(80, 24)) as pilot:
        before = await until_bench_drawn(pilot)
        await pilot.resize_terminal(120, 40)
        await until_seen(pilot, ") when closed")
        await pilot.resize_terminal(80, 24)
        await until(pilot, lambda: ") when closed" not in screen_text(app))
        assert await until_bench_drawn(pilot) == before
        await pilot.resize_terminal(120, 40)  # by now all of it is known
        await until_seen(pilot, ") when closed")


async def test_a_row_that_is_no_piece_has_nothing_beside_it(carded) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(120, 40)) as pilot:
        await until_bench_drawn(pilot)
        app.screen.rows.to_last()
        await until_seen(pilot, ") when closed")
        app.screen.rows.begin_with(ToCard("skerry silk"))
        await until(pilot, lambda: ") when closed" not in screen_text(app))
        assert not set("▀▄") & set(screen_text(app))
