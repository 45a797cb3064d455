"""What every page does."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.core.words.notices import Notice
from companion.tui.app import TallycordApp
from companion.tui.cords.screen import CordsScreen
from companion.tui.routes import ToBench, ToCard, ToCords, ToDesign, ToPiece
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


async def test_a_page_is_left_once(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Designs")
        bench = app.screen
        bench.go(ToCords())
        bench.go(ToBench(Notice("watch", "Too late.")))
        await until_seen(pilot, "No cord cards yet")
        assert isinstance(app.screen, CordsScreen)
        assert len(app.screen_stack) == 1


@pytest.mark.parametrize(
    ("route", "word"),
    [
        (ToCard("silk"), "There is no cord card named silk."),
        (ToPiece("nobody"), "There is no piece named nobody."),
        (ToDesign(Path("gone.yaml")), "gone.yaml"),
    ],
    ids=["card", "piece", "design"],
)
async def test_a_page_that_can_not_be_shown_is_told_on_the_bench(workshop, monkeypatch, tmp_path, route, word) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Designs")
        app.screen.go(route)
        await until_seen(pilot, f"△ {word}")
        await until_seen(pilot, "Designs")
