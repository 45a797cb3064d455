"""Mishaps at the bench, played in the app: what it says, and what putting it right brings."""

from __future__ import annotations

from companion.core.journal.events import Recounted
from companion.tui.follow.screen import FollowScreen
from companion.workshop import open_at
from tests.tui.screens import until, until_seen


async def at_step(pilot, app, step: int) -> None:
    while app.screen.opened.piece.done < step:
        before = app.screen.opened.piece.done
        await pilot.press("space")
        await until(pilot, lambda before=before: app.screen.opened.piece.done > before)


async def measure(pilot, app, key: str, text: str) -> None:
    readings = len(app.screen.opened.piece.readings)
    follow = app.screen
    await pilot.press(key, *("space" if c == " " else c for c in text), "enter")
    await until(pilot, lambda: app.screen is follow or "Press Enter again" in screen_words(app))
    if app.screen is not follow:
        await pilot.press("enter")
    await until(pilot, lambda: app.screen is follow and len(follow.opened.piece.readings) > readings)


def screen_words(app) -> str:
    from tests.tui.screens import screen_text

    return " ".join(screen_text(app).split())


async def begun(pilot) -> None:
    await until_seen(pilot, "Enter begin")
    await pilot.press("enter")
    await until_seen(pilot, "step 1 of 33")


async def test_a_step_counted_and_not_made(app) -> None:
    """The key pressed twice for one bead: a recount that names the steps; the count put right, all is on plan."""
    async with app.run_test(size=(80, 24)) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 10)
        await measure(pilot, app, "m", "42 mm")
        await until_seen(pilot, "On length.")
        await at_step(pilot, app, 15)
        await measure(pilot, app, "m", "74 mm")  # 82 planned: one bead and knot of 8 mm are not there
        await until_seen(pilot, "▲ You may")
        await until_seen(pilot, "Count the beads in steps 11 to 15 (r): there should be 5.")
        await pilot.press("u")  # the reading, which was the latest act
        await until_seen(pilot, "Undone: your reading")
        await pilot.press("u")
        await until_seen(pilot, "step 15 of 33")
        await measure(pilot, app, "m", "74 mm")
        await until_seen(pilot, "On length.")


async def test_beads_counted_and_right_end_the_recount(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 10)
        await measure(pilot, app, "m", "42 mm")
        await at_step(pilot, app, 15)
        await measure(pilot, app, "m", "74 mm")
        await until_seen(pilot, "▲ You may")
        await pilot.press("r")
        await until_seen(pilot, "How many are there?")
        assert "Steps 11 to 15 should hold 5 beads." in screen_words(app)
        await pilot.press("enter")
        await until_seen(pilot, "Count agrees")
        assert "Recount" not in screen_words(app)
        assert [one.step for one in app.screen.opened.piece.counted] == [15]


async def test_a_bead_fewer_counted_is_known_from_then_on(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 10)
        await measure(pilot, app, "m", "42 mm")
        await at_step(pilot, app, 15)
        await measure(pilot, app, "m", "74 mm")
        await until_seen(pilot, "▲ You may")
        await pilot.press("r")
        await until_seen(pilot, "How many are there?")
        await pilot.press("4")
        await until_seen(pilot, "One fewer than the plan says")
        await pilot.press("enter")
        await until_seen(pilot, "1 The screen is ahead: set it back from step 15 to 14.")
        await until_seen(pilot, "2 A bead really is left out: reckon with it.")
        await pilot.press("2", "enter")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        assert [one.beads for one in app.screen.opened.piece.counted] == [-1]
        assert "Recount" not in screen_words(app)
        assert app.workshop.outlook(app.screen.opened).finished.mean_mm < app.screen.opened.plan.finished_length_mm - 3


async def test_an_inch_too_much_is_measured_again(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 10)
        await measure(pilot, app, "m", "42 mm")
        await at_step(pilot, app, 15)
        await measure(pilot, app, "m", "107 mm")
        await until_seen(pilot, "Measure again")
        await until_seen(pilot, "an inch too long")
        await pilot.press("x")
        await until_seen(pilot, "Your reading of 4 3/16 in after step 15 is taken out.")
        await measure(pilot, app, "m", "82 mm")
        await until_seen(pilot, "On length.")


async def test_a_tight_evening_is_off_and_its_remedy_changes_what_is_left(app, data_folder) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await begun(pilot)
        for step, text in ((9, "33 mm"), (13, "63 mm"), (18, "92 mm"), (22, "120 mm")):
            await at_step(pilot, app, step)
            await measure(pilot, app, "m", text)
        await until_seen(pilot, "Too short")
        await pilot.press("w")
        await until_seen(pilot, 'more "sea-glass round, single knot" from here on')
        more = next(
            str(n)
            for n, one in enumerate(app.screen.query_one("Rows").values, start=1)
            if 'more "sea-glass' in one.what
        )
        await pilot.press(more)
        await until_seen(pilot, "Chosen")
        longer = app.screen.opened.plan.total_steps
        assert longer > 33
        await until_seen(pilot, f"step 23 of {longer}")
        await pilot.press("u")
        await until_seen(pilot, "step 23 of 33")
        await pilot.press("w")
        await until_seen(pilot, "What to do")
        await pilot.press(more)
        await until_seen(pilot, f"step 23 of {longer}")
        await at_step(pilot, app, longer)
        await until_seen(pilot, f"all {longer} steps done")
    opened = open_at(data_folder).open("skerry-bracelet")
    assert opened.plan.total_steps == longer
    assert len(list(open_at(data_folder).journal_with_plans(opened))) == opened.revision


async def test_a_remedy_by_mouse(app) -> None:
    async with app.run_test(size=(60, 18)) as pilot:
        await begun(pilot)
        for step, text in ((9, "33 mm"), (13, "63 mm"), (18, "92 mm"), (22, "120 mm")):
            await at_step(pilot, app, step)
            await measure(pilot, app, "m", text)
        await pilot.press("w")
        await until_seen(pilot, "1 choose")
        foot = app.screen.query_one("KeyLine")
        await pilot.click(foot, offset=(foot.shown()[0][0] + 2, 0))
        await until_seen(pilot, "Chosen")
        assert len(app.screen.opened.piece.changes) == 1


async def test_what_is_typed_can_be_typed_again(app) -> None:
    async with app.run_test(size=(60, 18)) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 10)
        await pilot.press("m", *"99", "ctrl+u", *"42", "space", *"mm")
        await until_seen(pilot, "Your reading is as expected")
        await pilot.press("enter")
        await until(pilot, lambda: getattr(app.screen, "opened", None) is not None)
        assert [reading.length_mm for reading in app.screen.opened.piece.readings] == [42.0]


async def test_a_cord_ten_centimetres_short(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 17)
        free = app.screen.opened.plan.strands[0].steps[16].free_cord_mm
        await measure(pilot, app, "c", f"{free - 100:.0f} mm")
        await until_seen(pilot, "reaches the last knot")
        await pilot.press("o")
        await until_seen(pilot, "no bead still to come takes four cords")
        await pilot.press(*"200", "space", *"mm")
        await until_seen(pilot, "Enough cord.")
        await pilot.press("enter")
        await until_seen(pilot, "of each cord more.")
        await until(pilot, lambda: "short to hold" not in screen_words(app))
        await pilot.press("u")
        await until_seen(pilot, "Go on with tweezers")
        assert "short to hold" in screen_words(app)


async def test_a_bead_fewer_may_be_the_screen_that_is_ahead(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 15)
        await pilot.press("r")
        await until_seen(pilot, "How many are there?")
        held = app.screen.question.hint
        await pilot.press(*str(int(held.split()[-1]) - 1), "enter")
        await until_seen(pilot, "1 The screen is ahead: set it back from step 15 to 14.")
        await pilot.press("1", "enter")
        await until_seen(pilot, "The screen is set back from step 15 to 14. u undoes it.")
        assert app.screen.opened.piece.done == 14
        assert app.screen.opened.piece.counted == (Recounted(14),)
