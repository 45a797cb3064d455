"""Keys faster than screens: each is done once, at the screen that it was meant for."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
from textual import events
from textual.widgets import Input

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.journal.events import Confirmed
from companion.tui.app import TallycordApp
from companion.tui.bench.screen import BenchScreen
from companion.tui.dialogs.ask import AskDialog
from companion.tui.dialogs.question import Judged, Question
from companion.tui.follow.screen import FollowScreen
from companion.tui.piece.result_page import ResultScreen
from companion.tui.widgets.text import KeyLine
from companion.workshop import open_at
from tests.harness import key_bursts
from tests.tui.screens import until, until_seen

KEYS = {"enter": "\r", "escape": "\x1b", "space": " ", "down": None}
NAMES = {" ": "space", ".": "full_stop"}


def burst(app: TallycordApp, *typed: str) -> None:
    """Type all of it at once: names of keys, or text."""
    for keys_or_text in typed:
        if keys_or_text in KEYS:
            app.post_message(events.Key(keys_or_text, KEYS[keys_or_text]))
        else:
            for letter in keys_or_text:
                app.post_message(events.Key(NAMES.get(letter, letter), letter))


async def until_done(pilot, app) -> None:
    """Wait until every key that was typed is done."""
    typed: list[bool] = []
    app.call_later(typed.append, True)
    await until(pilot, lambda: bool(typed) and not app._typed and app.takes_keys())


@pytest.fixture
def begun(workshop, skerry):
    """A piece with twelve steps done."""
    return workshop.jump(workshop.start(skerry), 15)


async def followed(pilot, app) -> FollowScreen:
    await until_seen(pilot, "Last done")
    await pilot.press("enter")
    await until(pilot, lambda: isinstance(app.screen, FollowScreen))
    return app.screen


async def test_what_is_typed_while_a_question_is_built_stands_in_its_line(workshop, begun) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await followed(pilot, app)
        burst(app, "m", "42")
        await until(pilot, lambda: isinstance(app.screen, AskDialog) and app.screen.query_one(Input).value == "42")


async def test_every_space_of_a_burst_confirms_one_step(workshop, begun, data_folder) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(60, 18)) as pilot:
        page = await followed(pilot, app)
        burst(app, *["space"] * 9)
        await until_seen(pilot, "step 25 of 33")
        assert page.opened.piece.done == 24
    made = [entry.event.step for entry in open_at(data_folder).journal(begun) if isinstance(entry.event, Confirmed)]
    assert made == list(range(16, 25))


async def test_a_key_that_waits_is_no_bounce_of_the_one_before_it(workshop, begun, monkeypatch) -> None:
    """Two presses that lie apart count both, though they are done one right after the other."""
    monkeypatch.setenv("TALLYCORD_KEY_BOUNCE", "0.25")
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await followed(pilot, app)
        for after_seconds in (0.0, 0.3, 0.4, 0.7):  # the third one bounces
            key = events.Key("space", " ")
            key.time += after_seconds
            app.post_message(key)
        await until_done(pilot, app)
        assert page.opened.piece.done == 18


async def test_a_piece_from_its_beginning_to_its_end_typed_in_one_go(app, data_folder) -> None:
    """Through seven screens, before the first is there: steps, a reading, a note, and both questions at the end."""
    async with app.run_test(size=(80, 24)) as pilot:
        finish = ("space", "202 mm", "enter", "enter")  # how long it came out, and what is left
        burst(app, "enter", *["space"] * 12, "m", "6 cm", "enter", "enter", "n", "tight", "enter")
        burst(app, *["space"] * 21, *finish)
        await until(pilot, lambda: isinstance(app.screen, ResultScreen))
    piece = open_at(data_folder).open("skerry-bracelet").piece
    assert (piece.done, piece.state, piece.finished_mm) == (33, "finished", 202.0)
    assert [(reading.step, reading.length_mm) for reading in piece.readings] == [(12, 60.0)]
    assert [note.text for note in piece.notes] == ["tight"]


async def test_a_form_is_filled_in_one_go(workshop, monkeypatch, tmp_path) -> None:
    """Each line gets what was typed for it, though the hand moves on between two keys."""
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        burst(app, "k", "n", "silk", "enter", ".45", "enter", "enter", "enter", "enter")
        await until_seen(pilot, "Cord card · silk")
    assert [(card.name, card.diameter_mm, card.layers) for card in workshop.cards()] == [("silk", 0.45, 1)]


async def test_a_choice_is_made_in_one_go(workshop, skerry) -> None:
    """The cursor moves from where the list begins, though the list is not drawn yet."""
    row = CardTest("single", KnotTest(200.0, 194.0, 1), None, "200 mm; 194 mm")
    workshop.add_tests(CordCard("silk", 0.45, 2, "silk", "awl"), row)
    app = TallycordApp(workshop, design=skerry)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        burst(app, "k", "down", "enter")
        await until_seen(pilot, "Planned by the card silk.")


async def test_what_is_pasted_waits_for_its_turn_too(workshop, begun) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await followed(pilot, app)
        burst(app, "n")
        app.post_message(events.Paste("tight\nloose"))
        burst(app, "er", "enter", "space")
        await until(pilot, lambda: page.opened.piece.done == 16)
        assert [(note.step, note.text) for note in page.opened.piece.notes] == [(15, "tighter")]


@pytest.mark.parametrize("ways_out", [("escape", "escape"), ("escape", "enter"), ("x", "enter", "enter")])
async def test_a_question_is_left_once(workshop, begun, ways_out) -> None:
    """What follows is for the screen below: Esc there leads to the bench, Enter soon after an answer counts no bead."""
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await followed(pilot, app)
        burst(app, "n", *ways_out)
        there = BenchScreen if ways_out[-1] == "escape" else FollowScreen
        await until_done(pilot, app)
        assert isinstance(app.screen, there)
        assert len(app.screen_stack) == 1
        assert page.opened.piece.done == 15


async def test_a_dialog_answered_twice_gives_the_first_answer(workshop, begun) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await followed(pilot, app)
        await pilot.press("n")
        await until_seen(pilot, "A note at step 15")
        dialog = app.screen
        dialog.dismiss("first")
        dialog.dismiss("second")
        await until_seen(pilot, "Noted.")
        assert [note.text for note in page.opened.piece.notes] == ["first"]
        assert app.screen is page


def click(x: int, y: int) -> Iterator[events.Event]:
    for kind in (events.MouseDown, events.MouseUp):
        yield kind(None, x, y, 0, 0, 1, False, False, False)


async def test_two_clicks_in_one_go_begin_one_piece(app, workshop) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        line = app.screen.query_one(KeyLine)
        x = next(first for first, _, command in line.shown() if command.short == "begin") + 2
        for event in (*click(x, 23), *click(x, 23)):
            app.post_message(event)
        await until_seen(pilot, "step 1 of 33")
    assert len(workshop.pieces()) == 1


async def test_after_leaving_no_key_counts(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Designs")
        burst(app, "q", "enter", "enter", "space")
        await until(pilot, lambda: not app.is_running)
    assert workshop.pieces() == ()


async def test_steps_go_on_while_the_ways_out_are_worked_out(workshop, begun, monkeypatch) -> None:
    """A long strand takes a second: that holds up no step. What was worked out for the step before is dropped."""
    known = threading.Event()
    monkeypatch.setattr("companion.core.remedies.search.remedies", lambda *_, **__: (known.wait(30), ())[1])
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        page = await followed(pilot, app)
        burst(app, "w", "space")
        try:
            await until(pilot, lambda: page.opened.piece.done == 16)
        finally:
            known.set()
        await until(pilot, app.takes_keys)
        await until(pilot, lambda: not [worker for worker in app.workers if worker.node is page])
        assert app.screen is page


async def test_an_app_that_ends_while_a_question_is_built(workshop, begun) -> None:
    app = TallycordApp(workshop, piece=begun.name)
    async with app.run_test(size=(80, 24)) as pilot:
        await followed(pilot, app)
        app.push_screen(AskDialog(Question("Anything?", Judged)))
        app.exit(0)
    assert app.return_code == 0


@pytest.mark.parametrize("size", key_bursts.SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_keys_in_bursts_end_nothing(tmp_path, size) -> None:
    key_bursts.prepare(tmp_path)
    went = key_bursts.run_trial(tmp_path, (3, size), seed=1, most_keys=240)
    assert went.wrong == ""
    assert went.sent >= 240
    assert len(went.screens) > 2  # which of them depends on when a burst ends
