"""The plan at hand, one key from anywhere in a piece."""

from __future__ import annotations

import pytest

from companion.tui.app import TallycordApp
from companion.tui.bench.screen import BenchScreen
from companion.tui.follow.screen import FollowScreen
from companion.tui.piece.plan_page import PlanScreen
from companion.tui.routes import ToPlan
from tests.tui.screens import screen_text, until, until_seen


async def test_from_the_steps_and_back(workshop, skerry) -> None:
    opened = workshop.jump(workshop.start(skerry), 15)
    opened = workshop.measure(opened, "strand", 79.0, "79 mm")
    workshop.note(opened, "a looser hand tonight")
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Last done")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        await pilot.press("p")
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))
        text = "\n".join(paragraph.text for paragraph in app.screen.text())
        for words in (
            "Cut", "Count out", "21 Sea-glass rounds", "You will need", "String first, in this order", "✓  1  Stretch",
            "▸ 16", "Readings", "after step 15: strand 3 1/8 in", "a looser hand tonight", "Take care", "Journal",
            "Begun: Skerry bracelet, 33 steps.",
        ):  # fmt: skip
            assert words in text, words
        app.screen.query_one("#page").scroll_end(animate=False)
        await until_seen(pilot, "Begun: Skerry bracelet, 33 steps.")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))


async def test_from_the_bench(workshop, skerry) -> None:
    workshop.jump(workshop.start(skerry), 15)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, BenchScreen))
        await until_seen(pilot, "Skerry bracelet")
        await pilot.press("p")
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))


async def test_the_cut_can_be_entered_until_the_first_step(workshop, skerry) -> None:
    opened = workshop.start(skerry)
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        await pilot.press("p")
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))
        await until_seen(pilot, "c cut")
        await pilot.press("c")
        await until_seen(pilot, "How long is the cord you cut")
        await pilot.press(*"48 in", "enter")
        await until_seen(pilot, "you cut 48 in")
        assert workshop.open(opened.name).piece.cut_mm(0) == pytest.approx(48 * 25.4)
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        await pilot.press("space")
        await until_seen(pilot, "step 2 of 33")
        await pilot.press("p")
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))
        assert "c cut" not in await until_seen(pilot, "Esc back")
        await pilot.press("c")
        await until_seen(pilot, "The cut can be entered until the first step is done.")


async def test_home_end_and_its_parts(workshop, skerry) -> None:
    opened = workshop.start(skerry)
    app = TallycordApp(workshop, first=ToPlan(opened))
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Best fit")
        await pilot.press("end")
        await until_seen(pilot, "Begun: Skerry bracelet")
        await pilot.press("home")
        await until_seen(pilot, "old rule of thumb")
        for part in ("Count out", "String first, in this order", "You will need", "Steps"):
            await pilot.press("tab")
            await until(pilot, lambda part=part: screen_text(app).splitlines()[2].strip().startswith(part))
        await pilot.press("shift+tab")
        await until(pilot, lambda: "You will need" in screen_text(app).splitlines()[2])
