"""A finished piece opens as a result; the leftover is asked for before the tails are trimmed."""

from __future__ import annotations

import shutil

import pytest

from companion.core.plan.leftover import leftover_mm, trimming_step
from companion.tui.app import TallycordApp
from companion.tui.follow.screen import FollowScreen
from companion.tui.piece.plan_page import PlanScreen
from companion.tui.piece.result_page import ResultScreen
from companion.tui.start.screen import StartScreen
from tests.tui.screens import golden, screen_text, until, until_seen


@pytest.fixture
def own_design(skerry, tmp_path):
    place = tmp_path / "skerry.yaml"
    shutil.copy(skerry, place)
    return place


async def at_the_trimming(workshop, path, pilot, app) -> None:
    await until_seen(pilot, "Last done")
    await pilot.press("enter")
    await until(pilot, lambda: isinstance(app.screen, FollowScreen))


def trimmed_next(workshop, path):
    opened = workshop.start(path)
    return workshop.jump(opened, trimming_step(opened.plan) - 1)


async def test_the_leftover_is_asked_for_before_trimming_and_not_again(workshop, own_design) -> None:
    opened = trimmed_next(workshop, own_design)
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await at_the_trimming(workshop, own_design, pilot, app)
        await until_seen(pilot, "Before you trim, measure what is left of the cord past the closure (c).")
        await pilot.press("c")
        await until_seen(pilot, "leftover cord should measure")
        await pilot.press(*"8 in", "enter")
        await until(pilot, lambda: leftover_mm(app.screen.opened.plan, app.screen.opened.piece) is not None)
        assert "Before you trim" not in screen_text(app)
        for _ in range(opened.plan.total_steps - opened.piece.done):
            app.screen.bounce.seconds = 0.0
            await pilot.press("space")
        await until_seen(pilot, "all 33 steps")
        await pilot.press("space")
        await until_seen(pilot, "How long did it come out")
        await pilot.press(*"202 mm", "enter")
        await until(pilot, lambda: isinstance(app.screen, ResultScreen))
        assert "left 8 in of each cord, worth keeping" in " ".join((await until_seen(pilot, "came out")).split())


async def test_a_finished_piece_opens_as_its_result(workshop, own_design) -> None:
    opened = workshop.jump(workshop.start(own_design), 15)
    opened = workshop.measure(opened, "strand", 79.0, "79 mm")
    opened = workshop.note(opened, "sea-glass from the north beach")
    opened = workshop.finish(workshop.jump(opened, 33), 202.0, 210.0)
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        golden("result-80x24", await until_seen(pilot, "It came out at 7 15/16 in"))
        await pilot.press("p")
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, ResultScreen))
        await pilot.press("plus")
        await until(pilot, lambda: isinstance(app.screen, StartScreen))


async def test_it_is_opened_again_though_it_was_renamed_since(workshop, own_design) -> None:
    ended = workshop.finish(workshop.jump(workshop.start(own_design), 33), 202.0)
    workshop.rename(ended, "For Anna")
    app = TallycordApp(workshop, piece="For Anna")
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "u open again")
        await pilot.press("u")
        await until_seen(pilot, "Every step is done. Press Space to finish the piece.")
        assert [(row.name, row.state) for row in workshop.pieces()] == [("For Anna", "under way")]


async def test_a_design_that_is_gone_is_said(workshop, own_design) -> None:
    opened = workshop.finish(workshop.jump(workshop.start(own_design), 33), 202.0)
    own_design.unlink()
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "came out")
        await pilot.press("plus")
        await until_seen(pilot, "The design's file is no longer where it was.")
        await pilot.press("u")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        assert workshop.open(opened.name).piece.state == "under way"
