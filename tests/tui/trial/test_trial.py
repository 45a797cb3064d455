"""The first two minutes: each task is done as it says, at any size, and nothing of the sample is left."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

import pytest

from companion.core.values.setting_list import setting_named
from companion.tui.app import TallycordApp
from companion.tui.bench.screen import BenchScreen
from companion.tui.routes import ToTrial
from companion.tui.trial.trial import Trial
from tests.tui.screens import screen_text, until, until_seen


@pytest.fixture(autouse=True)
def somewhere_else(monkeypatch, tmp_path) -> Path:
    """Where the sample lies while it is there."""
    place = tmp_path / "elsewhere"
    place.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(place))
    monkeypatch.chdir(tmp_path)
    return place


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


async def told(pilot, number: int) -> str:
    return await until_seen(pilot, f"{number} of 11 ")


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24), (120, 40)])
async def test_every_task_from_an_empty_bench(workshop, data_folder, somewhere_else, dimensions) -> None:
    app = TallycordApp(workshop)
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "New here? y shows you")
        before = files(data_folder)
        await pilot.press("y")
        seen = await told(pilot, 1)
        assert "When a step is done, press Space: do it now." in " ".join(seen.split())
        assert "Silver daisy" in seen or "Sea-glass round" in seen
        assert "strand now" in seen
        assert len(list(somewhere_else.iterdir())) == 1
        await pilot.press("space")
        await told(pilot, 2)
        await pilot.press("u")
        await told(pilot, 3)
        await pilot.press(*["space"] * 4)
        await told(pilot, 4)
        await pilot.press("m", *reading(screen_text(app), "type ", ", as"))
        await until_seen(pilot, "Your reading is as expected")
        await pilot.press("enter")
        await told(pilot, 5)
        await pilot.press(*["space"] * 5)
        await told(pilot, 6)
        await pilot.press("m", *reading(screen_text(app), "Now m and ", ", which"))
        await until_seen(pilot, "is the screen one ahead (r, after Enter)?")
        await pilot.press("enter")
        await pilot.pause()
        if not app.trial.opened.piece.readings[1:]:
            await pilot.press("enter")
        seen = await told(pilot, 7)
        assert "Count the beads" in seen
        await pilot.press("r", "enter")
        await told(pilot, 8)
        await pilot.press("question_mark")
        await until_seen(pilot, "Keys and marks")
        await pilot.press("escape")
        await told(pilot, 9)
        await pilot.press("escape")
        await told(pilot, 10)
        await pilot.press("enter")
        await told(pilot, 11)
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, BenchScreen) and app.takes_keys())
        app.screen.came_at = 0.0
        await pilot.press("escape")
        await until_seen(pilot, "The sample is gone")
        assert app.workshop is workshop
        assert list(somewhere_else.iterdir()) == []
        assert files(data_folder) == before
        assert workshop.pieces() == ()


def reading(text: str, before: str, after: str) -> list[str]:
    """The keys for the length that a task names."""
    named = " ".join(text.split()).split(before, 1)[1].split(after, 1)[0]
    return ["space" if letter == " " else letter for letter in named]


async def test_it_can_be_left_at_any_moment_and_the_app_with_it(workshop, data_folder, somewhere_else) -> None:
    app = TallycordApp(workshop, first=ToTrial())
    async with app.run_test(size=(80, 24)) as pilot:
        await told(pilot, 1)
        await pilot.press("space", "m", "3", "escape", "escape")
        await until(pilot, lambda: isinstance(app.screen, BenchScreen) and app.takes_keys())
        app.screen.came_at = 0.0
        await pilot.press("escape")
        await until(pilot, lambda: app.return_code is not None)
    app.close_trial()
    assert list(somewhere_else.iterdir()) == []
    assert not data_folder.exists()


async def test_an_app_that_ends_in_the_middle_leaves_nothing(workshop, somewhere_else) -> None:
    app = TallycordApp(workshop, first=ToTrial())
    async with app.run_test(size=(80, 24)) as pilot:
        await told(pilot, 1)
        app.exit(0)
    app.close_trial()
    app.close_trial()
    assert list(somewhere_else.iterdir()) == []


def test_the_sample_is_a_piece_like_any_other_in_a_home_of_its_own(somewhere_else) -> None:
    trial = Trial()
    assert trial.opened.piece.done == 10
    assert [row.name for row in trial.workshop.pieces()] == ["skerry-bracelet"]
    trial.close()
    assert list(somewhere_else.iterdir()) == []


async def test_the_sample_is_made_by_her_own_settings(workshop, data_folder, somewhere_else) -> None:
    for name, value in (("unit", "cm"), ("hand", "left"), ("colours", "day")):
        workshop.set_setting(setting_named(name), value)
    before = files(data_folder)
    app = TallycordApp(workshop, first=ToTrial())
    async with app.run_test(size=(80, 24)) as pilot:
        assert re.search(r"strand now  \d+\.\d cm", await told(pilot, 1))
        assert app.theme == "day"
        assert app.screen.left_handed
        assert app.trial.workshop.settings == workshop.settings
        await pilot.press("t")
        await until(pilot, lambda: app.theme != "day")
    app.close_trial()
    assert workshop.settings.colours == "day"
    assert files(data_folder)["pieces.sqlite3"] == before["pieces.sqlite3"]
    assert not list(somewhere_else.iterdir())
