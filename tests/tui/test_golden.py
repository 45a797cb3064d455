"""The screens as a person reads them, at the three sizes."""

from __future__ import annotations

import re

import pytest

from companion.tui.app import TallycordApp
from tests.tui.screens import golden, screen_text, until, until_bench_drawn, until_drawn, until_seen

DRAWN_FROM = 100  # columns: the piece is drawn on its first page


def dateless(text: str) -> str:
    """When a piece was last touched depends on the day the test runs."""
    return re.sub(r"(of 33.*?)  .*", r"\1  (when)", text)


async def test_start(app, size) -> None:
    name, dimensions = size
    async with app.run_test(size=dimensions) as pilot:
        seen = until_drawn if dimensions[0] >= DRAWN_FROM else until_seen
        golden(f"start-{name}", await seen(pilot, "Enter begin"))


async def test_follow_beginning_middle_and_end(app, workshop, size) -> None:
    name, dimensions = size
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        golden(f"follow-first-{name}", await until_seen(pilot, "On length."))
        await pilot.press(*["space"] * 15)
        await until_seen(pilot, "step 16 of 33")
        golden(f"follow-middle-{name}", await until_seen(pilot, "Measure the strand now"))
        await pilot.press("j", *"33", "enter")
        golden(f"follow-end-{name}", await until_seen(pilot, "all 33 steps done"))


async def test_measure_and_off(app, size) -> None:
    name, dimensions = size
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 16)
        await until_seen(pilot, "step 17 of 33")
        await pilot.press("m", *"3", "space", *"3/16")
        golden(f"measure-{name}", await until_seen(pilot, "less than expected"))
        await pilot.press("enter")
        await until_seen(pilot, "finishes △")  # it may turn out either way
        await pilot.press(*["space"] * 6)
        await until_seen(pilot, "step 23 of 33")
        await pilot.press("m", *"4", "space", *"13/16", "enter")
        golden(f"follow-off-{name}", await until_seen(pilot, "Too short (w: what to do)."))
        await pilot.press("w")
        golden(f"what-to-do-{name}", await until_seen(pilot, "1 choose"))


async def test_bench_recap_and_help(workshop, skerry, size, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", str(tmp_path))
    name, dimensions = size
    opened = workshop.start(skerry)
    for _ in range(13):
        opened = workshop.confirm(opened)
    app = TallycordApp(workshop)
    async with app.run_test(size=dimensions) as pilot:
        golden(f"bench-{name}", dateless(await until_bench_drawn(pilot, "Under way")))
        await pilot.press("enter")
        golden(f"recap-{name}", await until_seen(pilot, "Last done"))
        await pilot.press("enter")
        await until_seen(pilot, "step 14 of 33")
        await pilot.press("question_mark")
        golden(f"help-{name}", await until_seen(pilot, "Keys and marks"))
        await pilot.press("escape", "k")
        golden(f"how-it-is-tied-{name}", await until_seen(pilot, "How it is tied"))


def right_hand_columns(text: str) -> set[int]:
    """Where the two right-hand figures begin."""
    top = next(line for line in text.splitlines() if "strand now" in line)
    bottom = next(line for line in text.splitlines() if "finishes " in line)
    return {top.index("leftover "), bottom.index("cord ")}


@pytest.mark.parametrize("design", ["skerry-bracelet", "bell-rock-rope", "longstone-necklace"])
async def test_the_figures_keep_their_columns(workshop, patterns, size, design) -> None:
    """Short and long pieces, wide and narrow intervals: from the first step, through a reading, to the end."""
    _, dimensions = size
    app = TallycordApp(workshop, design=patterns / f"{design}.yaml")
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        columns = right_hand_columns(await until_seen(pilot, "finishes at"))
        follow = app.screen
        total = follow.opened.plan.total_steps
        last = max(step.number for step in follow.opened.plan.strands[0].steps if step.kind == "string")
        for step in (12, 18, last - 1):  # while there is cord to speak of
            follow.session.change(lambda piece, step=step: workshop.jump(piece, step))
            follow.show_all()
            strand_mm = follow.opened.plan.strands[0].steps[step - 1].strand_mm * 1.01
            follow.session.change(lambda piece, mm=strand_mm: workshop.measure(piece, "strand", mm, "ruler"))
            follow.show_all()
            columns |= right_hand_columns(await until_seen(pilot, f"step {step + 1} of {total}"))
            await until(pilot, lambda: follow.outlook is workshop.outlook(follow.opened))
            columns |= right_hand_columns(screen_text(app))
        assert len(columns) == 1


async def test_nothing_jumps_between_steps(app) -> None:
    """On a confirm the same things stand in the same places."""
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "On length.")
        places = None
        for step in range(1, 25):
            await pilot.press("space")
            text = await until_seen(pilot, f"step {step + 1} of 33")
            await until(pilot, lambda: "finishes at" in screen_text(app))
            lines = text.splitlines()
            found = [next(n for n, line in enumerate(lines) if word in line) for word in ("strand now", "Space done")]
            places = places or found
            assert found == places
