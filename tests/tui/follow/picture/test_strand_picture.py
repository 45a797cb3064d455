"""The strand to scale: only what shows is drawn."""

from __future__ import annotations

from companion.tui.app import TallycordApp
from tests.tui.screens import screen_text, until_seen


async def test_ten_thousand_steps_draw_only_what_shows(workshop, tmp_path) -> None:
    path = tmp_path / "long.yaml"
    path.write_text(
        "format: 1\nname: Long light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}}\n"
        "strand: {layout: [{repeat: 10000, of: [b, knot]}]}\n"
    )
    app = TallycordApp(workshop, design=path)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of 10005")
        await pilot.press("j", *"9000", "enter")
        await until_seen(pilot, "step 9001 of 10005")
        assert "▲" in screen_text(app)
        picture = app.screen.query_one("StrandPicture")
        drawn: list[int] = []
        original = type(picture).render_line
        type(picture).render_line = lambda self, y: (drawn.append(y), original(self, y))[1]
        try:
            await pilot.press("space")
            await until_seen(pilot, "step 9002 of 10005")
        finally:
            type(picture).render_line = original
        assert 0 < len(drawn) <= 4 * picture.size.height
