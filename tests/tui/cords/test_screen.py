"""The cord cards in the app, by keys and by mouse."""

from __future__ import annotations

from rich.cells import cell_len

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.values.errors import NotStored
from companion.tui.app import TallycordApp
from companion.tui.cords.card import CardScreen
from companion.tui.cords.screen import CordsScreen
from tests.tui.cards import SILK_TESTS
from tests.tui.screens import golden, until_seen


async def test_the_screens_as_they_read(carded, size) -> None:
    name, dimensions = size
    app = TallycordApp(carded)
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("k")
        golden(f"cords-{name}", await until_seen(pilot, "+ new card"))
        await pilot.press("down", "enter")
        golden(f"cord-card-{name}", await until_seen(pilot, "Cord card · skerry silk"))
        await pilot.press("enter")
        golden(f"cord-row-empty-{name}", await until_seen(pilot, "length before"))
        await pilot.press("up", "up", "ctrl+u", "1", "down", "down", *"200", "enter", *"194")
        await until_seen(pilot, "This row: take-up 6.00 mm a knot.")
        golden(f"cord-row-{name}", await until_seen(pilot, "5 more to"))
        await pilot.press("escape")
        await until_seen(pilot, "Esc again leaves it, and what you typed here is lost.")
        await pilot.press("escape", "escape", "plus")
        golden(f"cord-new-{name}", await until_seen(pilot, "New cord card"))


async def test_a_card_is_made_and_fed_with_the_keyboard_alone(workshop, size, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=size[1]) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("k")
        await until_seen(pilot, "No cord cards yet")
        await pilot.press("plus")
        await until_seen(pilot, "New cord card")
        await pilot.press(*"bishop silk", "enter", *".45", "enter", "2", "enter", "enter", "right", "enter")
        await until_seen(pilot, "Cord card · bishop silk")
        assert workshop.cards() == (CordCard("bishop silk", 0.45, 2, "silk", "needle"),)
        await pilot.press("enter")
        await until_seen(pilot, "length before")
        for after in ("194", "193.5"):
            await pilot.press(*"200", "enter", *after, "enter", "enter")
            await until_seen(pilot, f"Saved: single, 1 knot: 200 mm before, {after} mm after")
        await pilot.press("escape")
        await until_seen(pilot, "193.5 mm after")
        tests = workshop.card("bishop silk").tests
        assert [test.row.take_up_mm for test in tests] == [6.0, 6.5]


async def test_with_the_mouse_alone_but_for_what_is_typed(carded) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Esc quit")

        async def click(words: str) -> None:
            lines = (await until_seen(pilot, words)).splitlines()
            place = next(n for n, line in enumerate(lines) if words in line)
            await pilot.click(offset=(cell_len(lines[place].split(words)[0]) + 2, place))

        await click("k cords")
        await click("silk, 0.45 mm")  # a line below the name is the card too
        await until_seen(pilot, "Cord card · skerry silk")
        await click("Enter test knots")
        await click("‹ single ›")
        await until_seen(pilot, "‹ double ›")
        await click("of one cord")
        await pilot.press(*"10 in")
        await click("of the same cord, knots in it")
        await pilot.press(*"7 1/2 in")
        await until_seen(pilot, "take-up 12.70 mm a knot")
        await click("Enter next")
        await click("Enter next")
        await until_seen(pilot, "Saved: double")
        await click("Esc cancel")
        await click("x take out")
        await until_seen(pilot, "Taken out: double, 5 knots: 10 in before, 7 1/2 in after")
        assert carded.card("skerry silk").tests == SILK_TESTS


async def test_hostile_names_are_only_text(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    name = "[@click=app.quit]x[/]\u202e\x1b[2J" + "y" * 90
    workshop.add_tests(CordCard(name, 0.45, 2), CardTest("single", Row(200, 194, 1), None, "[red]\x1b; \u202e"))
    app = TallycordApp(workshop)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("k")
        texts = [await until_seen(pilot, "[@click=app.quit]x[/]")]
        await pilot.press("enter")
        texts.append(await until_seen(pilot, "Cord card"))
        assert isinstance(app.screen, CardScreen)
        await pilot.press("enter")
        texts.append(await until_seen(pilot, "Test knots ·"))
        for text in texts:
            assert "\x1b" not in text
            assert "\u202e" not in text
            assert all(cell_len(line) <= 60 for line in text.splitlines())


async def test_a_store_that_fails_is_said_and_nothing_falls_over(carded, monkeypatch) -> None:
    app = TallycordApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("k")
        await until_seen(pilot, "skerry silk")

        def gone(*_: object) -> None:
            raise NotStored("The file of pieces can't be read.")

        monkeypatch.setattr(carded.cord_cards._store, "cards", gone)
        for key in ("plus", "enter"):
            await pilot.press(key)
            await until_seen(pilot, "▲ The file of pieces can't be read.")
            assert isinstance(app.screen, CordsScreen)
