"""Beside the work on a wide screen: the knot drawn with the piece's own bead, the closure at an end, nothing after."""

from __future__ import annotations

from companion.tui.app import TallycordApp
from companion.tui.knots.drawing import KnotDrawing
from companion.tui.routes import ToPiece
from tests.tui.screens import screen_text, until, until_seen

SIZE = (120, 40)


def shown(app):
    return [drawing.shown for drawing in app.screen.query(KnotDrawing) if drawing.display]


async def begun(workshop, skerry, steps):
    opened = workshop.start(skerry)
    for _ in range(steps):
        opened = workshop.confirm(opened)
    return opened


async def test_the_drawing_has_the_bead_of_the_step(workshop, skerry) -> None:
    opened = await begun(workshop, skerry, 14)
    app = TallycordApp(workshop, first=ToPiece(opened.name))
    async with app.run_test(size=SIZE) as pilot:
        await until_seen(pilot, "carry on")
        await pilot.press("enter")
        await until_seen(pilot, "to the next beads")
        seen = []
        for _ in range(4):
            (one,) = shown(app)
            assert one.layers == 2
            assert one.name == "single knot"
            assert one.colour is not None
            seen.append(one.bead.letter)
            before = screen_text(app).splitlines()[0]
            await pilot.press("space")
            await until(pilot, lambda before=before: screen_text(app).splitlines()[0] != before)
            await until_seen(pilot, "Single knot")
        assert set(seen) == {"G", "S"}


async def test_nothing_of_the_steps_is_lost_for_the_drawing(workshop, skerry) -> None:
    opened = await begun(workshop, skerry, 12)
    app = TallycordApp(workshop, first=ToPiece(opened.name))
    async with app.run_test(size=SIZE) as pilot:
        await until_seen(pilot, "carry on")
        await pilot.press("enter")
        text = await until_seen(pilot, "to the next beads")
        assert "1  Draw the next bead up" in text
        assert "seats the knot against the bead." in text


async def test_at_an_end_the_closure_is_drawn_and_told(workshop, skerry) -> None:
    opened = await begun(workshop, skerry, 1)
    app = TallycordApp(workshop, first=ToPiece(opened.name))
    async with app.run_test(size=SIZE) as pilot:
        await until_seen(pilot, "carry on")
        await pilot.press("enter")
        await until_seen(pilot, "step 2 of")
        assert not shown(app)  # cord that is folded needs no drawing
        await pilot.press("space")
        await until_seen(pilot, "The cord comes from the bead")
        assert [one.name for one in shown(app)] == ["bead tip and clasp"]


async def test_without_colours_the_line_drawing_stays_with_its_parts_named(workshop, skerry, monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    opened = await begun(workshop, skerry, 12)
    app = TallycordApp(workshop, first=ToPiece(opened.name))
    async with app.run_test(size=SIZE) as pilot:
        await until_seen(pilot, "carry on")
        await pilot.press("enter")
        text = await until_seen(pilot, "to the next beads")
        assert "╲  ╲  ╲" in text
        assert not shown(app)


async def test_on_a_smaller_screen_nothing_of_it_is_loaded(workshop, skerry) -> None:
    opened = await begun(workshop, skerry, 12)
    app = TallycordApp(workshop, first=ToPiece(opened.name))
    async with app.run_test(size=(100, 40)) as pilot:
        await until_seen(pilot, "carry on")
        await pilot.press("enter")
        await until_seen(pilot, "step 13")
        assert not app.screen.query(KnotDrawing)
