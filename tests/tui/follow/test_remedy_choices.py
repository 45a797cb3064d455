"""What to do, on the screen: every way out readable at 60×18, chosen by digit or click, taken back by u."""

from __future__ import annotations

from itertools import pairwise

from companion.core.forecast.join_place import join_place
from companion.core.remedies.remedy_columns import rest_after, rest_now
from companion.tui.app import TallycordApp
from companion.tui.follow.screen import FollowScreen
from companion.tui.widgets.rows import Rows
from tests.tui.screens import screen_text, until, until_seen
from tests.tui.test_what_went_wrong import at_step, begun, measure

SMALLEST = (60, 18)


async def tight_evening(pilot, app) -> None:
    await begun(pilot)
    for step, text in ((9, "33 mm"), (13, "63 mm"), (18, "92 mm"), (22, "120 mm")):
        await at_step(pilot, app, step)
        await measure(pilot, app, "m", text)
    await pilot.press("w")
    await until_seen(pilot, "What to do")


def ways_out(app) -> list:
    """The remedies that are offered, from the first."""
    return app.screen.query_one(Rows).values


def seen(app) -> str:
    """The screen's words on one line, without the scroll bar."""
    return " ".join(screen_text(app).translate(dict.fromkeys(map(ord, "▁▂▃▄▅▆▇█"), " ")).split())


async def test_every_way_out_can_be_read_on_the_smallest_screen(app) -> None:
    async with app.run_test(size=SMALLEST) as pilot:
        await tight_evening(pilot, app)
        wanted = [f"{number} {one.what}." for number, one in enumerate(ways_out(app), start=1)]
        assert len(wanted) >= 2
        unseen = [*wanted, "in tolerance", f"Choose 1 to {len(wanted)}. The remaining steps"]
        while unseen:
            told = seen(app)
            read = [words for words in unseen if words in told]
            unseen = [words for words in unseen if words not in read]
            if not read:
                await pilot.press("down")
                await until(pilot, lambda told=told: seen(app) != told)


async def test_a_click_on_a_way_out_goes_on_so(app) -> None:
    async with app.run_test(size=SMALLEST) as pilot:
        await tight_evening(pilot, app)
        rows = app.screen.query_one(Rows)
        await pilot.click(rows, offset=(6, next(n for n, row in enumerate(rows.rows) if row.value and row.value.rests)))
        await until_seen(pilot, "Chosen; u undoes it.")
        assert len(app.screen.opened.piece.changes) == 1
        await pilot.press("u")
        await until(pilot, lambda: not app.screen.opened.piece.changes)


async def test_a_fresh_cord_is_noted_where_no_bead_takes_a_join(app) -> None:
    async with app.run_test(size=SMALLEST) as pilot:
        await begun(pilot)
        await at_step(pilot, app, 17)
        free_mm = app.screen.opened.plan.strands[0].steps[16].free_cord_mm
        await measure(pilot, app, "c", f"{free_mm - 100:.0f} mm")
        await pilot.press("w")
        await until_seen(pilot, "1 choose")
        assert not any(one.join for one in ways_out(app))
        *_, last = ways_out(app)
        assert last.text.startswith("No bead still to come takes four cords")
        fresh = next(str(number) for number, one in enumerate(ways_out(app), start=1) if one.afresh)
        await pilot.press(fresh)
        await until_seen(pilot, "Noted; u undoes it.")
        assert "start afresh" in app.screen.opened.piece.notes[-1].text


async def test_new_cord_is_joined_on_from_the_list_and_said_again_at_its_bead(workshop, patterns) -> None:
    """Chosen from the ways out, and left until its bead; said in that step, chosen again and answered; u undoes it."""
    opened = workshop.jump(workshop.start(patterns / "bell-rock-rope.yaml"), 8)
    short_mm = opened.plan.strands[0].steps[7].free_cord_mm / 2
    app = TallycordApp(workshop, piece=workshop.measure(opened, "free", short_mm, "short").name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Last done")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen) and app.screen.outlook is not None)
        page = app.screen
        await choose_to_join(pilot, app)
        assert "inside" in seen(app)
        await pilot.press("escape")
        await until(pilot, lambda: app.screen is page)
        place = join_place(opened.plan, page.outlook)
        await at_step(pilot, app, place.step - 1)
        await until_seen(pilot, "Join the new cord in this step, inside the red granite.")
        await choose_to_join(pilot, app)
        await pilot.press(*"60", "space", "i", "n", "enter")
        await until_seen(pilot, "New cord is on: 60 in")
        assert [join.step for join in page.opened.piece.joins] == [place.step - 1]
        assert "Join the new cord in this step" not in seen(app)
        await pilot.press("u")
        await until(pilot, lambda: not page.opened.piece.joins)
        await until_seen(pilot, "Join the new cord in this step")


async def choose_to_join(pilot, app) -> None:
    """From the list of ways out to the question how much the cord gains."""
    await pilot.press("w")
    await until_seen(pilot, "What to do")
    await pilot.press(next(str(number) for number, one in enumerate(ways_out(app), start=1) if one.join))
    await until_seen(pilot, "How much does")


async def test_on_a_large_screen_each_rest_is_drawn_below_its_letters(app) -> None:
    async with app.run_test(size=(120, 40)) as pilot:
        await tight_evening(pilot, app)
        rows = app.screen.query_one(Rows).rows
        drawn = [row.drawn for row in rows if row.drawn]
        assert drawn
        pictures = [one.pixels for one in drawn if one.line == 0]
        opened = app.screen_stack[-2].opened
        _, now = rest_now(opened.plan, opened.piece)
        others = [one for one in ways_out(app) if tuple(rest_after(opened.plan, opened.piece, one)) != tuple(now)]
        assert len(others) >= 2
        assert len(pictures) == 1 + len(others)
        assert len({len(one.rows) for one in pictures}) == 1
        for before, row in pairwise(rows):
            if row.drawn and row.drawn.line == 0:
                assert set(before.text.strip().split()[0]) & set("gs◦◎┄…")
        assert "▀" in screen_text(app)


async def test_without_colours_the_rests_are_letters_alone(app, monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    quiet = TallycordApp(app.workshop, design=app.first.path)
    async with quiet.run_test(size=(120, 40)) as pilot:
        await tight_evening(pilot, quiet)
        assert not any(row.drawn for row in quiet.screen.query_one(Rows).rows)
