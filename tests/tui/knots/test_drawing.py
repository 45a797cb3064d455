"""A knot drawn on a page to read: for the hand of the settings, kept until the next one is drawn."""

from __future__ import annotations

import pytest

from companion.core.tying.knot_picture import scene_of
from companion.core.values.setting_list import SETTINGS
from companion.core.words.trade.how_to import names
from companion.tui.app import TallycordApp
from companion.tui.knots.drawing import KnotDrawing
from tests.tui.screens import screen_text, until, until_seen


async def opened(pilot, name):
    await until_seen(pilot, "Esc quit")
    await pilot.press("l")
    await until_seen(pilot, "Knots and closures")
    await pilot.press(*["down"] * names().index(name), "enter")
    await until(pilot, lambda: bool(pilot.app.screen.query(KnotDrawing)))
    drawing = pilot.app.screen.query_one(KnotDrawing)
    await until(pilot, lambda: bool(drawing.region) and drawing.is_drawn)
    return drawing


@pytest.mark.parametrize("name", ["single knot", "lark's head", "sliding knot"])
async def test_every_part_is_named_on_the_screen(workshop, name) -> None:
    app = TallycordApp(workshop)
    async with app.run_test(size=(120, 40)) as pilot:
        drawing = await opened(pilot, name)
        scene = scene_of(drawing.shown)
        assert scene is not None
        await until(pilot, lambda: all(part.text in screen_text(app) for part in scene.names))


async def test_for_the_left_hand_the_bead_is_at_the_right(workshop) -> None:
    (setting,) = (one for one in SETTINGS if one.name == "hand")
    columns = {}
    for hand in ("right", "left"):
        workshop.set_setting(setting, hand)
        app = TallycordApp(workshop)
        async with app.run_test(size=(80, 24)) as pilot:
            drawing = await opened(pilot, "single knot")
            assert drawing.shown.left_handed == (hand == "left")
            await until_seen(pilot, "working end")
            line = next(line for line in screen_text(app).splitlines() if "working end" in line)
            columns[hand] = line.index("bead") < line.index("working end")
    assert columns == {"right": True, "left": False}


@pytest.mark.parametrize(("size", "colours"), [((60, 18), True), ((79, 24), True), ((120, 40), False)])
async def test_where_it_is_small_or_without_colours_words_stand_in_its_place(
    workshop, size, colours, monkeypatch
) -> None:
    if not colours:
        monkeypatch.setenv("NO_COLOR", "1")
    app = TallycordApp(workshop)
    async with app.run_test(size=size) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("l")
        await until_seen(pilot, "Knots and closures")
        await pilot.press(*["down"] * names().index("lark's head"), "enter")
        await until_seen(pilot, "The folded cord goes through the ring")
        assert not app.screen.query(KnotDrawing)
