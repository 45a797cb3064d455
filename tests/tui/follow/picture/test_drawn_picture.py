"""The drawn strand on a large screen with colours; the letters everywhere else."""

from __future__ import annotations

import pytest

from companion.core.words.measured.chart_words import TITLE
from companion.tui.app import TallycordApp
from companion.tui.follow.picture.drawn_picture import DrawnPicture, WholePiece
from tests.tui.screens import golden, gone, screen_text, until_golden, until_seen


@pytest.fixture
def begun(workshop, skerry):
    return workshop.jump(workshop.start(skerry), 12)


async def opened_at(app, pilot, step: str) -> str:
    await until_seen(pilot, "Last done")
    await pilot.press("enter")
    return await until_seen(pilot, step)


@pytest.mark.parametrize("size", [(100, 30), (120, 40), (200, 60)], ids=["100x30", "120x40", "200x60"])
async def test_the_screens_as_they_read(workshop, begun, size) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=size) as pilot:
        text = await opened_at(app, pilot, "step 13 of 33")
        name = f"drawn-{size[0]}x{size[1]}"
        await until_seen(pilot, TITLE if size[0] == 200 else "▲ here")  # the chart comes a little later
        text = await until_golden(pilot, name)
        assert "▀" in text
        assert "▲ here" in text


async def test_without_colour_the_letters_stay(workshop, begun, monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(120, 40)) as pilot:
        text = await opened_at(app, pilot, "step 13 of 33")
        assert "•█G██•" in text
        assert not app.screen.query(WholePiece)


async def test_a_step_moves_the_ring_on(workshop, begun) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(120, 40)) as pilot:
        await opened_at(app, pilot, "step 13 of 33")
        picture = app.screen.query(DrawnPicture).first()
        made = picture.made
        await pilot.press("space")
        text = await until_seen(pilot, "step 14 of 33")
        assert picture.made > made
        assert text.count("▲ here") == 2  # around here, and in the whole piece


async def test_ten_thousand_steps_draw_only_what_shows(workshop, tmp_path) -> None:
    path = tmp_path / "long.yaml"
    path.write_text(
        "format: 1\nname: Long light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm, colour: teal}}\n"
        "strand: {layout: [{repeat: 10000, of: [b, knot]}]}\n"
    )
    opened = workshop.jump(workshop.start(path), 9000)
    app = TallycordApp(workshop, piece=opened.name)
    async with app.run_test(size=(120, 40)) as pilot:
        await opened_at(app, pilot, "step 9001 of 10005")
        drawn: list[int] = []
        original = DrawnPicture.render_line
        DrawnPicture.render_line = lambda self, y: (drawn.append(y), original(self, y))[1]
        try:
            await pilot.press("space")
            await until_seen(pilot, "step 9002 of 10005")
        finally:
            DrawnPicture.render_line = original
        heights = sum(picture.size.height for picture in app.screen.query(DrawnPicture))
        assert 0 < len(drawn) <= 4 * heights
        assert "▲ here" in screen_text(app)


async def test_from_afar_only_the_step_is_there_and_all_comes_back(workshop, begun) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(120, 40)) as pilot:
        before = await opened_at(app, pilot, "step 13 of 33")
        scale = app.screen.query(DrawnPicture).first().picture_scale
        await pilot.press("f")
        await gone(pilot, "finishes at")
        text = await until_seen(pilot, "▲ here")
        assert "Sea-glass round" in text
        assert "then a single knot" in text
        assert app.screen.query(DrawnPicture).first().picture_scale > scale
        golden("drawn-afar-120x40", text)
        await pilot.press("f")
        assert await until_seen(pilot, "finishes at") == before
