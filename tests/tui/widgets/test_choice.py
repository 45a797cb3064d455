"""One of a few words, by keys and by mouse."""

from __future__ import annotations

from textual.app import App, ComposeResult

from companion.tui.widgets.choice import Choice
from tests.tui.screens import until, until_seen


class OneChoice(App[None]):
    """Three words to choose from."""

    def __init__(self) -> None:
        super().__init__()
        self.told: list[str] = []

    def compose(self) -> ComposeResult:
        yield Choice(("silk", "nylon", "hemp"), "nylon")

    def on_choice_changed(self) -> None:
        self.told.append(self.query_one(Choice).value)


async def test_on_and_back_round_the_end() -> None:
    app = OneChoice()
    async with app.run_test(size=(40, 3)) as pilot:
        await until_seen(pilot, "‹ nylon › 2 of 3")
        app.query_one(Choice).focus()
        await pilot.press("right", "space", "left", "left", "left")
        await until(pilot, lambda: app.told == ["hemp", "silk", "hemp", "nylon", "silk"])
        await pilot.click(Choice, offset=(8, 0))
        await until(pilot, lambda: app.told[5:] == ["nylon"])
        await pilot.click(Choice, offset=(0, 0))
        await until(pilot, lambda: app.told[6:] == ["silk"])


def test_a_word_that_is_not_there_begins_with_the_first() -> None:
    assert Choice(("silk", "nylon"), "wool").value == "silk"
