"""One question: read once, judged while it is typed, given back as a value or left."""

from __future__ import annotations

from companion.core.words.notices import Notice
from companion.tui.app import TallycordApp
from companion.tui.dialogs.ask import AskDialog
from companion.tui.dialogs.question import ONCE_MORE, Judged, Question, not_yet
from tests.tui.screens import gone, screen_text, until, until_seen


class Counted:
    """How many? Keeps what it was asked to read."""

    def __init__(self) -> None:
        self.read: list[str] = []

    def __call__(self, text: str) -> Judged[int]:
        self.read.append(text)
        if not text.isdigit():
            return not_yet("A number.")
        return Judged(
            int(text), (Notice("quiet", f"That is {text}."),), f"So many? {ONCE_MORE}" if len(text) > 2 else ""
        )


async def asked(pilot, judge: Counted, begin_with: str = "") -> list[object]:
    """The dialog over the bench; what it gives back comes into the list."""
    given: list[object] = []
    await until_seen(pilot, "Esc quit")
    pilot.app.push_screen(AskDialog(Question("How many?", judge, begin_with)), given.append)
    await until_seen(pilot, "How many?")
    return given


async def test_each_text_is_read_once(workshop) -> None:
    judge = Counted()
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        given = await asked(pilot, judge)
        await pilot.press("1", "2")
        await until_seen(pilot, "That is 12.")
        await pilot.press("enter")
        await until(pilot, lambda: given == [12])
    assert judge.read == ["", "1", "12"]


async def test_what_can_not_be_taken_stays(workshop) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        given = await asked(pilot, Counted(), "x")
        await until_seen(pilot, "A number.")
        await pilot.press("enter", "ctrl+u", "0")
        await until_seen(pilot, "That is 0.")
        assert given == []
        await pilot.press("enter")
        await until(pilot, lambda: given == [0])  # a value, though nothing in itself


async def test_what_is_doubted_is_asked_about_once_for_each_text(workshop) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        given = await asked(pilot, Counted())
        await pilot.press("1", "2", "3", "enter")
        await until_seen(pilot, f"▲ So many? {ONCE_MORE}")
        await pilot.press("4")
        await gone(pilot, ONCE_MORE)
        await pilot.press("enter")
        await until_seen(pilot, f"▲ So many? {ONCE_MORE}")
        assert given == []
        await pilot.press("enter")
        await until(pilot, lambda: given == [1234])


async def test_a_question_that_is_left_gives_nothing(workshop) -> None:
    async with TallycordApp(workshop).run_test(size=(60, 18)) as pilot:
        given = await asked(pilot, Counted(), "12")
        await pilot.press("escape")
        await until(pilot, lambda: given == [None])


async def test_a_length_shows_where_it_falls_while_it_is_typed(app) -> None:
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 16, "m")
        text = await until_seen(pilot, "should measure")
        assert "┃" not in text
        await pilot.press("2")
        await until_seen(pilot, "◀─")
        await pilot.press("ctrl+u", *"86mm")
        await until_seen(pilot, "░●░")
        await pilot.press("ctrl+u")
        await until_seen(pilot, "what the ruler says")
        assert "┃" not in screen_text(app)
