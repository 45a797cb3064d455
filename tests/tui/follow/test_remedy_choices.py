"""What to do, on the screen: every way out readable at 60×18, chosen by digit or click, taken back by u."""

from __future__ import annotations

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
        await until_seen(pilot, "Chosen.")
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
