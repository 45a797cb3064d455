"""The settings page: each can be set there, and acts."""

from __future__ import annotations

from companion.core.values.setting_list import SETTINGS
from companion.tui.app import TallycordApp
from companion.tui.routes import ToPiece, ToSettings
from companion.tui.settings.screen import SettingsScreen
from tests.tui.screens import screen_text, until, until_seen


async def test_every_setting_is_there_with_what_it_changes(workshop) -> None:
    app = TallycordApp(workshop, first=ToSettings())
    async with app.run_test(size=(80, 30)) as pilot:
        text = " ".join((await until_seen(pilot, "colours")).split())
        for setting in SETTINGS:
            assert setting.name in text
            assert setting.says in text


async def test_one_is_set_and_kept(workshop) -> None:
    app = TallycordApp(workshop, first=ToSettings())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "› unit")
        await pilot.press("enter")
        await until_seen(pilot, "mm, cm, in")
        await pilot.press(*"in", "enter")
        await until(pilot, lambda: workshop.settings.unit == "in")
        await pilot.press("down", "down", "enter")
        await until_seen(pilot, "such as 46 cm")
        await pilot.press(*"18", "enter")  # a bare number is in the unit that was just set
        await until(pilot, lambda: workshop.settings.arm_mm == 18 * 25.4)
        await until_seen(pilot, "457 mm (18 in)")
        await pilot.press("enter")
        await until_seen(pilot, "such as 46 cm")
        await pilot.press(*"3 m", "enter")
        await until_seen(pilot, "Expected a length from 250 mm to 1000 mm.")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, SettingsScreen))
        assert workshop.settings.arm_mm == 18 * 25.4


async def test_home_and_end(workshop) -> None:
    app = TallycordApp(workshop, first=ToSettings())
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "› unit")
        await pilot.press("end")
        await until_seen(pilot, "› colours")
        await pilot.press("home")
        await until_seen(pilot, "› unit")


async def test_colours_chosen_anywhere_are_those_it_begins_with(workshop, monkeypatch) -> None:
    monkeypatch.delenv("TALLYCORD_COLOURS", raising=False)
    app = TallycordApp(workshop, first=ToSettings())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Settings")
        first = app.theme
        await pilot.press("t")
        await until(pilot, lambda: app.theme != first)
        chosen = app.theme
    assert TallycordApp(workshop).theme == chosen
    monkeypatch.setenv("TALLYCORD_COLOURS", first)
    assert TallycordApp(workshop).theme == first


async def test_a_left_hand_has_its_drawing(workshop, skerry) -> None:
    (hand,) = (setting for setting in SETTINGS if setting.name == "hand")
    opened = workshop.jump(workshop.start(skerry), 15)
    for value, line in (("right", "█S█─────╱"), ("left", "╲─────█S█")):
        workshop.set_setting(hand, value)
        app = TallycordApp(workshop, first=ToPiece(opened.name))
        async with app.run_test(size=(60, 18)) as pilot:
            await until_seen(pilot, "Sea-glass")
            await pilot.press("enter")
            await until_seen(pilot, "strand now")
            await pilot.press("k")
            await until(pilot, lambda app=app, line=line: line in screen_text(app))
