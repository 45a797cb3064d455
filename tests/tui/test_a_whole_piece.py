"""A whole piece in the app: by keys alone at three sizes, and by mouse alone."""

from __future__ import annotations

import pytest
from textual.widgets import Input

from companion.core.journal.events import Confirmed
from companion.tui.app import TallycordApp
from companion.tui.follow.picture.big_step import BigStep
from companion.tui.widgets.paragraphs import CommandText
from companion.tui.widgets.rows import Rows
from companion.tui.widgets.text import KeyLine
from companion.workshop import open_at
from tests.tui.screens import gone, screen_text, until, until_seen


async def test_by_keys_alone(app, size, data_folder) -> None:
    _, dimensions = size
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("c", *"46", "space", *"in", "enter")
        await until_seen(pilot, "Enter begins with the cut you entered")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of 33")
        keys = ["space", "enter", "pagedown"]
        for step in range(1, 34):
            await pilot.press(keys[step % 3])
            await until(pilot, lambda step=step: app.screen.opened.piece.done == step)
            if step == 12:
                await pilot.press("u")
                await until_seen(pilot, "step 12 of 33")
                await pilot.press("space")
        await until_seen(pilot, "all 33 steps done")
        await pilot.press("space")
        await until_seen(pilot, "How long did it come out")
        await pilot.press(*"202", "space", *"mm", "enter")
        await until_seen(pilot, "with what was trimmed off")
        await pilot.press(*"23", "space", *"cm", "enter")
        await until_seen(pilot, "Skerry bracelet is finished. 9 1/16 in of each cord left: worth keeping")
    opened = open_at(data_folder).open("skerry-bracelet")
    assert (opened.piece.state, opened.piece.finished_mm) == ("finished", 202.0)
    assert open_at(data_folder).journal(opened)[-1].event.left_mm == 230.0
    assert opened.piece.cut_mm(0) == pytest.approx(46 * 25.4)
    confirms = [
        entry.event.step for entry in open_at(data_folder).journal(opened) if isinstance(entry.event, Confirmed)
    ]
    assert confirms == [*range(1, 13), *range(12, 34)]


async def click_key(pilot, words: str) -> None:
    """Click a key in the line at the foot."""
    line = pilot.app.screen.query_one(KeyLine)
    first = next(first for first, _, command in line.shown() if command.short == words)
    await pilot.click(line, offset=(first + 2, 0))


async def test_by_mouse_alone(workshop, monkeypatch, tmp_path, data_folder) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Designs")
        rows = app.screen.query_one(Rows)
        place = next(n for n, row in enumerate(rows.rows) if row.text == "skerry-bracelet")
        await pilot.click(rows, offset=(8, place))
        await until_seen(pilot, "Enter begin")
        await click_key(pilot, "begin")
        await until_seen(pilot, "step 1 of 33")
        for step in range(1, 34):
            await pilot.click(BigStep)
            await until(pilot, lambda step=step: app.screen.opened.piece.done == step)
        await until_seen(pilot, "Space finish")  # a longer word: the key beside it has moved
        await click_key(pilot, "undo")
        await until_seen(pilot, "step 33 of 33")
        await click_key(pilot, "done")
        await until_seen(pilot, "Press Space to finish the piece.")
        await pilot.click(BigStep)
        await until_seen(pilot, "How long did it come out")
        await click_key(pilot, "accept")
        await until_seen(pilot, "with what was trimmed off")
        await click_key(pilot, "accept")
        await until_seen(pilot, "is finished.")
    assert open_at(data_folder).open("skerry-bracelet").piece.state == "finished"


async def click_words(pilot, words: str) -> None:
    """Click where those words stand on the screen."""
    lines = (await until_seen(pilot, words)).splitlines()
    row = next(n for n, line in enumerate(lines) if words in line)
    await pilot.click(offset=(lines[row].index(words) + 1, row))


async def test_by_mouse_a_command_of_the_help_and_back_to_the_bench(app) -> None:
    """At sixty columns the key line has no room for all: the help is where the hand finds the rest."""
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        await click_key(pilot, "begin")
        await until_seen(pilot, "step 1 of 33")
        await click_key(pilot, "more")
        await click_words(pilot, "Write a note at this step.")
        await until_seen(pilot, "A note at step 0")
        await click_key(pilot, "cancel")
        await until_seen(pilot, "step 1 of 33")
        await click_key(pilot, "more")
        await until_seen(pilot, "Keys and marks")
        list(app.screen.query(CommandText))[-1].scroll_visible(animate=False)
        await click_words(pilot, "Nothing is lost.")
        await until_seen(pilot, "Under way")


async def test_three_strands_and_two_sides(workshop, patterns) -> None:
    for design, total in (("inner-farne-strands", 150), ("wolf-rock-necklace", 53)):
        app = TallycordApp(workshop, design=patterns / f"{design}.yaml")
        async with app.run_test(size=(60, 18)) as pilot:
            await until_seen(pilot, "Enter begin")
            await pilot.press("enter")
            await until_seen(pilot, f"of {total}")
            for step in range(1, total + 1):
                await pilot.press("space")
                await until(pilot, lambda step=step, app=app: app.screen.opened.piece.done == step)
            await until_seen(pilot, f"all {total} steps done")


async def test_a_cut_too_short_is_questioned_before_the_first_knot(app, data_folder) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("c", *"998", "space", *"mm")
        await until_seen(pilot, "Much too short: ")
        await pilot.press("enter")
        await until_seen(pilot, "Press Enter again to accept it")
        assert app.screen.query_one(Input).value == "998 mm"
        await pilot.press("enter")
        await until_seen(pilot, "you cut 39 5/16 in")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of 33")
    assert open_at(data_folder).open("skerry-bracelet").piece.cut_mm(0) == 998


async def test_free_cord_too_short_to_hold_is_not_said_to_run_out(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 17)
        await until_seen(pilot, "step 18 of 33")
        await pilot.press("c", *"26", "space", *"cm")
        await until_seen(pilot, "reaches the last knot")
        await pilot.press("enter")
        await until_seen(pilot, "△ short to hold")


async def test_a_reading_that_can_not_be_right_is_questioned_and_can_be_withdrawn(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 17)
        await until_seen(pilot, "step 18 of 33")
        await pilot.press("m", *"14", "space", *"in", "enter")
        await until_seen(pilot, "Check the ruler and the unit")
        assert app.screen_stack[-2].opened.piece.readings == ()
        await pilot.press("enter")
        await until_seen(pilot, "Measure again")
        await pilot.press("x")
        await until_seen(pilot, "is taken out.")
        assert app.screen.opened.piece.readings == ()
        await until_seen(pilot, "On length.")


async def test_a_length_that_can_not_be_read_says_why(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space", "space", "m", *"3q")
        await until_seen(pilot, "unit that isn't known here")
        await pilot.press("enter", "z")
        await until_seen(pilot, "3qz")  # Enter took nothing
        await pilot.press("escape")
        await until(pilot, lambda: type(app.screen).__name__ == "FollowScreen")


async def test_notes_and_jumps(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space", "n", *"looser", "enter")
        await until_seen(pilot, "Noted.")
        await pilot.press("j", *"23")
        await until_seen(pilot, "Steps 2 to 23 count as done")
        await pilot.press("enter")
        await until_seen(pilot, "step 24 of 33")
        await pilot.press("u")
        await until_seen(pilot, "step 2 of 33")
        await pilot.press("j", *"99")
        await until_seen(pilot, "a number from 0 to 33")
        await pilot.press("enter", "9")
        await until_seen(pilot, "999")  # Enter took nothing
        await pilot.press("escape")
        await gone(pilot, "Up to which step")
        assert app.screen.opened.piece.done == 1


async def ended(pilot, app, length: str, left: str) -> None:
    """All steps done; how long it came out, and what is left."""
    await until_seen(pilot, "Enter begin")
    await pilot.press("enter")
    await until_seen(pilot, "step 1 of 33")
    app.screen.session.change(lambda opened: app.workshop.jump(opened, 33))
    app.screen.show_all()
    await until_seen(pilot, "all 33 steps done")
    await pilot.press("space")
    await until_seen(pilot, "How long did it come out")
    await pilot.press(*length, "enter")
    await until_seen(pilot, "with what was trimmed off")
    await pilot.press(*left, "enter")


@pytest.fixture
def carded_app(skerry, tmp_path, data_folder):
    from companion.core.cord.cards import CardTest, CordCard
    from companion.core.cord.knot_tests import KnotTest, TouchingRow

    path = tmp_path / "carded.yaml"
    numbers = "  knots:\n    single: {take_up: 6 mm, length: 2 mm}\n"
    path.write_text(skerry.read_text(encoding="utf-8").replace(numbers, "  card: silk\n"), encoding="utf-8")
    workshop = open_at(data_folder)
    test = CardTest("single", KnotTest(250.0, 238.0, 2), TouchingRow(4.0, 2))
    workshop.add_tests(CordCard("silk", 0.45, 2), test)
    return TallycordApp(workshop, path)


@pytest.mark.parametrize(("answer", "learns"), [("", True), ("n", False)])
async def test_a_finished_piece_teaches_its_card_if_the_maker_will(carded_app, data_folder, answer, learns) -> None:
    async with carded_app.run_test(size=(60, 18)) as pilot:
        await ended(pilot, carded_app, "204mm", "15cm")
        await until_seen(pilot, "Update the cord card silk from this piece? Single knot: take-up")
        await pilot.press(*answer, "enter")
        await until_seen(pilot, "is finished.")
        assert ("The card silk is updated." in " ".join(screen_text(carded_app).split())) is learns
    card = open_at(data_folder).card("silk")
    assert card is not None
    assert len(card.lessons) == learns


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24)], ids=["60x18", "80x24"])
async def test_a_band_with_a_disc_left_out(workshop, patterns, dimensions) -> None:
    """A 5 mm disc is left out in step 7, and within 12 mm of tolerance the length is right all the same: she is told to
    count, and where; what is announced is asked for; the figures, the word and the ways out agree after her count."""
    app = TallycordApp(workshop, design=patterns / "start-point-band.yaml")
    async with app.run_test(size=dimensions) as pilot:

        def said() -> str:
            return " ".join(str(app.screen.query_one("#verdict").shown).split())

        async def up_to(step: int) -> None:
            while app.screen.opened.piece.done < step:
                done = app.screen.opened.piece.done
                await pilot.press("space")
                await until(pilot, lambda done=done: app.screen.opened.piece.done > done)

        async def read(text: str) -> None:
            await pilot.press(*text, "enter")
            await gone(pilot, "Enter accept")

        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of 19")
        await up_to(6)
        await until(pilot, lambda: "Measure the strand now (m)" in said())
        await read("4.6")
        asked = "Measure the leftover cord too (c), just this once."
        await until(pilot, lambda: said() == f"On length. {asked} Measure the strand after step 9.")
        await up_to(9)
        await pilot.press(*"8.3")
        await until_seen(pilot, "too much to be the ruler")
        await until_seen(pilot, "A reading does not fit.")
        await pilot.press("enter")
        count = "Count the beads in steps 7 to 9 (r): there should be 5."
        await until(
            pilot, lambda: said().startswith("△ A reading does not fit. Your 8.3 cm after step 9 is 0.6 cm less")
        )
        assert count in said()
        await up_to(12)
        await until(pilot, lambda: "Measure the strand now (m), before you close it." in said())
        assert count in said()
        await pilot.press("w")
        await until_seen(pilot, f"First make sure. {count}")
        await until_seen(pilot, "marked twice, answer that the screen is ahead.")
        await pilot.press("escape", "r")
        await until_seen(pilot, "Steps 7 to 9 should hold 5 beads.")
        await pilot.press("4", "enter")  # every step holds one bead or three: it is no step that was marked twice
        await until(pilot, lambda: said().startswith("One fewer than the plan says."))
        assert "It can still be brought nearer (w: what to do)." in said()
        await pilot.press("w")
        await until_seen(pilot, "As you counted, a bead is missing. On course for 14.6 ± 0.4 cm, 0.4 cm under your 15")
        await until_seen(pilot, "To bring it nearer:")
        await until_seen(pilot, "One more Driftwood disc")
        await pilot.press("escape")
        await up_to(19)
        await until_seen(pilot, "all 19 steps done")
        assert "cord" not in said()
        await pilot.press("1")
        await until_seen(pilot, "How long did it come out")
        await pilot.press(*"4.3", "enter")
        await until_seen(pilot, "with what was trimmed off")
        await pilot.press("enter")
        await until_seen(pilot, "Start Point band is finished.")
    opened = workshop.open("start-point-band")
    assert (opened.piece.state, opened.piece.finished_mm) == ("finished", 143.0)
    assert [one.length_mm for one in opened.piece.readings] == [46.0, 83.0]
