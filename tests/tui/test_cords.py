"""Cord cards in the app: made, fed row by row with what each row would mean, and chosen for a piece."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Touching
from companion.core.values.errors import NotStored
from companion.core.words.card_words import card_test_words
from companion.tui.app import CompanionApp
from companion.tui.dialogs.form import FormDialog
from companion.tui.screens.cord_card import CardScreen
from companion.tui.screens.cords import CordsScreen
from companion.tui.screens.start import StartScreen
from tests.tui.screens import golden, screen_text, until, until_seen

SILK = CordCard("skerry silk", 0.45, 2, "silk", "awl")
LINEN = CordCard("lizard linen", 0.6, 1, "waxed linen", "needle")
SIXTEENTH = 25.4 / 16
SILK_TESTS = (
    CardTest("single", Row(203.2, 196.85, 1, SIXTEENTH), None, "8 in; 7 3/4 in"),
    CardTest("single", Row(200.0, 194.0, 1), None, "200 mm; 194 mm"),
    CardTest("single", None, Touching(10.0, 5), "10 mm"),
)


@pytest.fixture
def carded(workshop, tmp_path, monkeypatch):
    """A workshop with two cards; the bench shows no designs but the shipped ones."""
    monkeypatch.chdir(tmp_path)
    workshop.add_tests(SILK, *SILK_TESTS)
    workshop.add_tests(LINEN, CardTest("double", Row(203.2, 192.0, 1), None, "8 in; 192 mm"))
    return workshop


def cut_mm(screen: StartScreen) -> float:
    return screen.plan.cuts[0].cut_mm


async def to_form(pilot, card: str) -> None:
    """From the bench to the form for that card's next row."""
    await until_seen(pilot, "Enter go on")
    await pilot.press("k")
    await until_seen(pilot, card)
    rows = pilot.app.screen.query_one("Rows")
    rows.begin_with(card)
    await pilot.press("enter")
    await until_seen(pilot, "Cord card")
    await pilot.press("enter")
    await until_seen(pilot, "length before")


async def test_the_screens_as_they_read(carded, size) -> None:
    name, dimensions = size
    app = CompanionApp(carded)
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Enter go on")
        await pilot.press("k")
        golden(f"cords-{name}", await until_seen(pilot, "+ new card"))
        await pilot.press("down", "enter")
        golden(f"cord-card-{name}", await until_seen(pilot, "Cord card · skerry silk"))
        await pilot.press("enter")
        golden(f"cord-row-empty-{name}", await until_seen(pilot, "length before"))
        await pilot.press("up", "up", "ctrl+u", "1", "down", "down", *"200", "enter", *"194")
        await until_seen(pilot, "This row: take-up 6.00 mm a knot.")
        golden(f"cord-row-{name}", await until_seen(pilot, "5 more to"))
        await pilot.press("escape", "escape", "plus")
        golden(f"cord-new-{name}", await until_seen(pilot, "New cord card"))


async def test_a_card_is_made_and_fed_with_the_keyboard_alone(workshop, size, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    app = CompanionApp(workshop)
    async with app.run_test(size=size[1]) as pilot:
        await until_seen(pilot, "Enter go on")
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
            await until_seen(pilot, f"Taken: single, 1 knot: 200 mm before, {after} mm after")
        await pilot.press("escape")
        await until_seen(pilot, "193.5 mm after")
        tests = workshop.card("bishop silk").tests
        assert [test.row.take_up_mm for test in tests] == [6.0, 6.5]


async def test_with_the_mouse_alone_but_for_what_is_typed(carded) -> None:
    app = CompanionApp(carded)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter go on")

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
        await click("of the cord, one layer")
        await pilot.press(*"8 in")
        await click("the same, with the knots in it")
        await pilot.press(*"5 1/2 in")
        await until_seen(pilot, "take-up 12.70 mm a knot")
        await click("Enter go on")
        await click("Enter go on")
        await until_seen(pilot, "Taken: double")
        await click("Esc leave it")
        await click("x take back")
        await until_seen(pilot, "Taken back: double, 5 knots: 8 in before, 5 1/2 in after")
        assert carded.card("skerry silk").tests == SILK_TESTS


@pytest.mark.parametrize(
    ("before", "after", "asked"), [("200", "180", "44 times"), ("200", "200", "swallowed no cord")]
)
async def test_what_can_hardly_be_is_asked_about_once(carded, before, after, asked) -> None:
    app = CompanionApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")
        await pilot.press("up", "up", "ctrl+u", "1", "down", "down", *before, "enter", *after, "enter", "enter")
        text = await until_seen(pilot, "Enter once more takes it all the same.")
        assert asked in " ".join(text.split())
        assert carded.card("skerry silk").tests == SILK_TESTS
        await pilot.press("enter")
        await until_seen(pilot, "Taken:")
        assert len(carded.card("skerry silk").tests) == len(SILK_TESTS) + 1


async def test_what_can_not_be_is_not_taken(carded) -> None:
    app = CompanionApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")
        for _ in range(3):
            await pilot.press("up", "up", "up", "up", "up", "down", "down", "down", "ctrl+u", *"194 mm", "enter")
            await pilot.press("ctrl+u", *"200 mm", "enter", "enter")
            await until_seen(pilot, "▲ The cord is longer after the knots than before")
        assert carded.card("skerry silk").tests == SILK_TESTS


@pytest.mark.parametrize(
    ("line", "typed", "said"),
    [
        ("knots", "0", "How many knots?"),
        ("knots", "x", "How many knots?"),
        ("before", "[red]8", "8"),
        ("row", "-3 mm", "-3"),
        ("row", "900 mm", "times the cord's diameter long"),
    ],
)
async def test_each_line_says_what_it_expects(carded, line, typed, said) -> None:
    app = CompanionApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")
        app.screen.entry(line).focus()
        await pilot.press("ctrl+u", *typed)
        await until(pilot, lambda: app.screen.values[line] == typed)
        await until_seen(pilot, said)
        assert carded.card("skerry silk").tests == SILK_TESTS


async def test_a_row_that_is_not_stored_is_not_shown_and_stays_typed(carded, monkeypatch) -> None:
    app = CompanionApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await to_form(pilot, "skerry silk")

        def full(*_: object) -> None:
            raise NotStored("The disk is full: nothing was stored. Make room, then enter it again.")

        with monkeypatch.context() as broken:
            broken.setattr(carded._cards, "add", full)
            await pilot.press(*"8 in", "enter", *"7 3/4 in", "enter", "enter")
            await until_seen(pilot, "▲ The disk is full")
        assert app.screen.values["after"] == "7 3/4 in"
        await pilot.press("down", "down", "enter")
        await until_seen(pilot, "Taken:")
        assert len(carded.card("skerry silk").tests) == len(SILK_TESTS) + 1


async def test_a_name_that_is_taken_and_a_diameter_out_of_the_way(carded) -> None:
    app = CompanionApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter go on")
        await pilot.press("k", "plus")
        await until_seen(pilot, "New cord card")
        await pilot.press(*"Skerry Silk")
        await until_seen(pilot, "There is a card named Skerry Silk already")
        await pilot.press("2", "enter", *"12 mm", "enter", "enter", "enter", "enter")
        await until_seen(pilot, "Cord of 12 mm is unusual. Enter once more")
        await pilot.press("enter")
        await until_seen(pilot, "Cord card · Skerry Silk2")


async def test_hostile_names_are_only_text(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    name = "[@click=app.quit]x[/]\u202e\x1b[2J" + "y" * 90
    workshop.add_tests(CordCard(name, 0.45, 2), CardTest("single", Row(200, 194, 1), None, "[red]\x1b; \u202e"))
    app = CompanionApp(workshop)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter go on")
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


async def test_a_card_chosen_at_start_makes_the_plan_and_the_piece_keeps_it(carded, skerry, size) -> None:
    name, dimensions = size
    app = CompanionApp(carded, design=skerry)
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Enter begin")
        designed = cut_mm(app.screen)
        await pilot.press("k")
        text = await until_seen(pilot, "as the design says")
        golden(f"cord-choice-{name}", text)
        assert text.index("skerry silk") < text.index("lizard linen")  # those that fit come first
        await pilot.press("down", "enter")
        await until_seen(pilot, "Planned by the card skerry silk.")
        assert cut_mm(app.screen) != designed
        assert app.screen.plan.cord.single.source == "card"
        chosen = cut_mm(app.screen)
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of")
        carded.add_tests(SILK, CardTest("single", Row(200.0, 190.0, 1), None, "200 mm; 190 mm"))
        kept = carded.open("skerry-bracelet").plan
        assert (kept.cord.card, kept.cuts[0].cut_mm) == ("skerry silk", chosen)


async def test_what_is_not_tested_is_said_at_start(carded, skerry) -> None:
    app = CompanionApp(carded, design=skerry)
    async with app.run_test(size=(80, 40)) as pilot:
        await until_seen(pilot, "Enter begin")
        designed = cut_mm(app.screen)
        await pilot.press("k")
        await until_seen(pilot, "as the design says")
        await pilot.press("down", "down", "down", "enter")
        await until_seen(pilot, "Take-up and length of the single knot are estimates")
        await until_seen(pilot, "Planned by an estimate.")
        assert cut_mm(app.screen) > designed
        await pilot.press("k", "up", "enter")
        await until_seen(pilot, "△ The cord card lizard linen was made with one layer, the design has 2.")
        assert app.screen.plan.cord.single.source == "design"  # of a kind the card does not know, the design's own
        await pilot.press("k", "up", "up", "enter")
        await until_seen(pilot, "Planned as the design says.")
        assert cut_mm(app.screen) == designed


async def test_a_cut_that_is_entered_stays_and_gets_its_new_risk(carded, skerry) -> None:
    app = CompanionApp(carded, design=skerry)
    async with app.run_test(size=(80, 40)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("c", *"46 in", "enter")
        await until_seen(pilot, "really cut (strand): 46 in")
        await until_seen(pilot, "As long as planned, or longer")
        await pilot.press("k", "down", "down", "down", "enter")
        await until_seen(pilot, "The chance that it runs out before the end")
        assert "really cut (strand): 46 in" in screen_text(app)


async def test_a_store_that_fails_is_said_and_nothing_falls_over(carded, monkeypatch) -> None:
    app = CompanionApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter go on")
        await pilot.press("k")
        await until_seen(pilot, "skerry silk")

        def gone(*_: object) -> None:
            raise NotStored("The file of pieces can't be read.")

        monkeypatch.setattr(carded._cards, "cards", gone)
        for key in ("plus", "enter"):
            await pilot.press(key)
            await until_seen(pilot, "▲ The file of pieces can't be read.")
            assert isinstance(app.screen, CordsScreen)


async def test_nothing_to_take_back(carded) -> None:
    carded.add_tests(CordCard("bare", 1.0, 1))
    app = CompanionApp(carded)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter go on")
        await pilot.press("k", "enter")
        await until_seen(pilot, "Cord card · bare")
        await pilot.press("x")
        await until_seen(pilot, "There is no test to take back.")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FormDialog))


def test_an_entry_is_told_as_it_was_typed() -> None:
    assert [card_test_words(test) for test in SILK_TESTS] == [
        "single, 1 knot: 8 in before, 7 3/4 in after, take-up 6.35 mm",
        "single, 1 knot: 200 mm before, 194 mm after, take-up 6.00 mm",
        "single, 5 knots: touching row 10 mm, length 2.00 mm each",
    ]
    untyped = CardTest("double", Row(203.2, 190.5, 1, SIXTEENTH), Touching(9.0, 1, SIXTEENTH))
    assert card_test_words(untyped).startswith(
        "double, 1 knot: 8 in before, 7 1/2 in after, take-up 12.70 mm, touching"
    )
