"""All readings on the screen: chosen by number or cursor, taken out or put back, the outlook with them."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest
from rich.cells import cell_len

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.reading_list import ListedReading
from companion.core.journal.events import Measured
from companion.tui.app import TallycordApp
from companion.tui.dialogs.choose import ChoiceDialog
from companion.tui.follow.screen import FollowScreen
from companion.tui.piece.plan_page import PlanScreen
from companion.tui.piece.reading_list import reading_choices
from companion.tui.piece.result_page import ResultScreen
from companion.tui.routes import ToPlan, ToSteps
from companion.tui.widgets.rows import Rows
from companion.workshop import DatedReading, OpenPiece, forecasts, warning_of
from tests.tui.screens import golden, screen_text, until, until_seen

EVENING = ((9, 34.0), (13, 66.0), (16, 76.0), (20, 114.0))
WORDS_OF = {"counts": "counts", "set aside": "set aside", "taken out": "taken out by you", "left behind": "left behind"}
WORDS = tuple(WORDS_OF.values())


@pytest.fixture
def read(workshop, skerry) -> OpenPiece:
    """With four readings of the strand, of which the third does not fit, and one of the cord."""
    opened = workshop.start(skerry)
    for step, length_mm in EVENING:
        opened = workshop.measure(workshop.jump(opened, step), "strand", length_mm, f"{length_mm} mm")
    return workshop.measure(opened, "free", 313.0, "313 mm")


def states(opened: OpenPiece) -> list[bool]:
    return [one.counts for one in opened.piece.all_readings]


async def following(pilot, opened: OpenPiece) -> FollowScreen:
    await until(pilot, lambda: isinstance(pilot.app.screen, FollowScreen) and pilot.app.screen.outlook is not None)
    return pilot.app.screen


@pytest.fixture
def app(workshop, read) -> TallycordApp:
    return TallycordApp(workshop, first=ToSteps(read))


def dateless(text: str) -> str:
    """When a reading was taken hangs on the zone of the machine."""
    return re.sub(r"20\d\d-\d\d-\d\d \d\d:\d\d", "(day and minute)", text)


async def test_the_list_and_one_taken_out_of_it(app, read, size) -> None:
    name, dimensions = size
    async with app.run_test(size=dimensions) as pilot:
        follow = await following(pilot, read)
        await pilot.press("M")
        golden(f"readings-{name}", dateless(await until_seen(pilot, "1 strand 1 5/16 in after step 9")))
        await pilot.press("3")
        seen = dateless(await until_seen(pilot, "Your reading of 3 in after step 16 is taken out."))
        golden(f"readings-taken-out-{name}", seen)
        await pilot.press("escape")
        await until(pilot, lambda: app.screen is follow)
        assert states(follow.opened) == [True, True, False, True, True]
        assert "Your reading of 3 in after step 16 is taken out." in await until_seen(pilot, "step 21 of 33")


async def test_by_the_cursor_and_enter_again_puts_it_back(app, workshop, read, monkeypatch) -> None:
    monkeypatch.setenv("TALLYCORD_KEY_BOUNCE", "0")
    async with app.run_test(size=(80, 24)) as pilot:
        follow = await following(pilot, read)
        before = workshop.outlook(read)
        await pilot.press("M")
        await until_seen(pilot, "Finishes at")
        await pilot.press("down", "down", "enter")
        await until_seen(pilot, "Your reading of 2 5/8 in after step 13 is taken out.")
        assert states(workshop.open(read.name)) == [True, False, True, True, True]
        assert app.screen.query_one(Rows).chosen == 2  # the cursor stays with it
        await pilot.press("enter")
        await until_seen(pilot, "Your reading of 2 5/8 in after step 13 counts again.")
        assert workshop.open(read.name).piece == read.piece
        await pilot.press("q")
        await until(pilot, lambda: app.screen is follow and follow.outlook is not None)
        assert workshop.outlook(follow.opened) == before


async def test_a_key_that_is_held_chooses_once(app, workshop, read, monkeypatch) -> None:
    monkeypatch.setenv("TALLYCORD_KEY_BOUNCE", "600")
    async with app.run_test(size=(80, 24)) as pilot:
        await following(pilot, read)
        await pilot.press("M", "2", "2", "2", "2")
        await until_seen(pilot, "Your reading of 2 5/8 in after step 13 is taken out.")
        await pilot.press("4")  # another one has a time of its own
        await until_seen(pilot, "Your reading of 4 1/2 in after step 20 is taken out.")
        assert states(workshop.open(read.name)) == [True, False, True, False, True]


async def test_undo_takes_it_back_and_redo_does_it_again(app, workshop, read) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await following(pilot, read)
        await pilot.press("M", "1", "escape", "u")
        await until_seen(pilot, "Undone: taking out your reading of 1 5/16 in after step 9.")
        assert workshop.open(read.name).piece == read.piece
        await pilot.press("U")
        await until_seen(pilot, "Redone: taking out your reading of 1 5/16 in after step 9.")
        assert states(workshop.open(read.name))[0] is False


async def test_nothing_is_chosen_by_the_enter_that_opens_and_leaves(app, workshop, read) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        follow = await following(pilot, read)
        await pilot.press("M")
        await until_seen(pilot, "Finishes at")
        await pilot.press("enter", "enter")  # the first leaves the list; the second came too soon to be a step
        await until(pilot, lambda: app.screen is follow)
        await pilot.pause()
        assert workshop.open(read.name).piece == read.piece


async def test_what_another_window_did_meanwhile_is_said_and_shown(app, workshop, other_window, read) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        follow = await following(pilot, read)
        await pilot.press("M")
        await until_seen(pilot, "Finishes at")
        theirs = other_window.undo(read)  # the leftover cord, and then another reading is the fifth
        other_window.measure(theirs, "strand", 114.0, "114 mm")
        await until(pilot, lambda: follow.opened.revision == theirs.revision + 1)
        await pilot.press("5")
        await until_seen(pilot, "The piece changed while you typed, so nothing was saved. Look again.")
        await until_seen(pilot, "5 strand 4 1/2 in after step 20")
        assert states(workshop.open(read.name)) == [True] * 5


async def test_from_the_plan_page_too(workshop, other_window, read) -> None:
    """There nobody looks what others do; the journal does."""
    app = TallycordApp(workshop, first=ToPlan(read))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))
        await pilot.press("M")
        await until_seen(pilot, "Finishes at")
        other_window.withdraw(read)
        await pilot.press("1")
        await until_seen(pilot, "The piece has changed")
        assert screen_text(app).count("taken out by you") == 1
        assert states(workshop.open(read.name)) == [True, True, True, True, False]


async def test_while_it_is_open_elsewhere_it_can_be_looked_at(app, workshop, other_window, read) -> None:
    other_window.take_lock(read)
    async with app.run_test(size=(80, 24)) as pilot:
        await following(pilot, read)
        await pilot.press("M")
        await until_seen(pilot, "1 strand 1 5/16 in after step 9")
        await pilot.press("1")
        await until_seen(pilot, "This piece is open in another window, so nothing was saved.")
        assert workshop.open(read.name).piece == read.piece
    other_window.let_go()


async def test_from_the_plan_page_which_then_shows_it(workshop, read) -> None:
    app = TallycordApp(workshop, first=ToPlan(read))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))
        await pilot.press("M", "5")
        await until_seen(pilot, "Your leftover-cord reading of 12 5/16 in after step 20 is taken out.")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, PlanScreen))
        await until_seen(pilot, "12 5/16 in after step 20 is taken out.")
        text = "\n".join(paragraph.text for paragraph in app.screen.text())
        assert "after step 20: cord left 12 5/16 in, taken out" in text
        assert "Taken out: your leftover-cord reading of 12 5/16 in after step 20." in text
        await pilot.press("escape")
        follow = await following(pilot, read)
        assert states(follow.opened)[-1] is False


async def test_of_a_finished_piece_they_are_shown_and_stay_as_they_are(workshop, read) -> None:
    done = workshop.finish(workshop.jump(read, 33), 202.0)
    app = TallycordApp(workshop, piece=done.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, ResultScreen))
        await pilot.press("M")
        seen = await until_seen(pilot, "3 strand 3 in after step 16")
        assert "set aside" in seen
        assert "take out" not in seen
        await pilot.press("3", "down")
        assert isinstance(app.screen, ChoiceDialog)
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, ResultScreen))
    assert workshop.open(done.name).piece == done.piece


async def test_without_readings_that_is_said(workshop, skerry) -> None:
    app = TallycordApp(workshop, first=ToSteps(workshop.jump(workshop.start(skerry), 15)))
    async with app.run_test(size=(60, 18)) as pilot:
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        await pilot.press("M")
        await until_seen(pilot, "No readings yet.")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FollowScreen))


@pytest.mark.parametrize("route", [ToSteps, ToPlan])
async def test_where_the_forecast_takes_long_the_list_comes_with_it(workshop, read, monkeypatch, route) -> None:
    read = workshop.measure(read, "strand", 106.0, "106 mm")
    read = workshop.measure(read, "free", 313.0, "313 mm")  # has to be taken in anew without the one before it
    assert read.warning
    monkeypatch.setattr(forecasts, "MOST_READINGS_AT_ONCE", 0)  # each one is worked out beside the screen
    app = TallycordApp(workshop, first=route(read))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: app.screen.is_mounted)
        await pilot.press("M")
        await until_seen(pilot, "Finishes at")
        await pilot.press("3", "6")
        await until_seen(pilot, "Your reading of 4 3/16 in after step 20 is taken out.")
        await pilot.press("escape")
        opened = workshop.open(read.name)
        assert states(opened) == [True, True, False, True, True, False, True]
        assert warning_of(Forecaster(opened.plan, faults=True).outlook(opened.piece)) == ""
        await until(pilot, lambda: workshop.open(read.name).warning == "")


# -- as it is laid out ------------------------------------------------------------------------------------------------


def laid_out(opened: OpenPiece, outlook, columns: int, *listed: ListedReading):
    """The rows of these readings in so many columns."""
    at = datetime(2026, 12, 1, 18, 10, tzinfo=UTC)
    return reading_choices(opened, [DatedReading(at, one) for one in listed], outlook).rows(columns)


@pytest.mark.parametrize("columns", [60, 80, 120])
def test_no_word_is_cut_off_and_each_state_has_its_own(workshop, patterns, columns) -> None:
    opened = workshop.start(patterns / "inner-farne-strands.yaml")
    step = opened.plan.piece_step(1, 9)
    read = Measured("free", step, 1234.5, "")
    listed = [
        ListedReading(n or None, read, state, 1200.0, 1190.0) for n, state in zip((1, 2, 3, 0), WORDS_OF, strict=True)
    ]
    rows = laid_out(opened, workshop.outlook(opened), columns, *listed)
    assert [row.mark for row in rows if row.mark] == list(WORDS)
    for row in rows:
        assert cell_len(row.text) + (cell_len(row.mark) + 2 if row.mark else 0) <= columns - 4
    told = " ".join(" ".join(row.text for row in rows).split())
    for one in (
        "1 leftover cord",
        "after step 62",
        "It doesn't fit the others.",
        "You went back past that step.",
    ):
        assert one in told, one


def test_one_that_was_left_behind_can_not_be_chosen(workshop, read) -> None:
    listed = [
        ListedReading(1, Measured("strand", 9, 34.0, ""), "counts", 34.0),
        ListedReading(None, Measured("strand", 16, 86.0, ""), "left behind"),
    ]
    rows = laid_out(read, workshop.outlook(read), 80, *listed)
    assert [row.value for row in rows if row.mark] == [1, None]
    place = next(n for n, row in enumerate(rows) if row.mark == "left behind")
    assert not rows[place - 1].detail  # a click on it is no click on the one above


@pytest.mark.parametrize(("count", "words"), [(4, "Type its number, or move"), (10, "Type a number up to 9, or move")])
def test_how_to_choose_is_said(workshop, read, count, words) -> None:
    opened = read
    for _ in range(count - 5):
        opened = workshop.measure(opened, "strand", 114.0, "114 mm")
    if count < 5:
        opened = workshop.undo(read)
    rows = laid_out(opened, workshop.outlook(opened), 120, *(one.listed for one in workshop.readings(opened)))
    assert rows[-1].text.startswith(words)
