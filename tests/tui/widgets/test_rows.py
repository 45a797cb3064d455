"""A list to choose from: its cursor is always in sight, and a row that is cut off shows that it is."""

from __future__ import annotations

import pytest
from textual.app import App, ComposeResult

from companion.core.picture.strip import StripCell
from companion.tui.themes import terminal_of, themes_on
from companion.tui.widgets.rows import Row, Rows, StripPlace
from tests.tui.screens import screen_text, until, until_seen

MANY = tuple(Row(f"row {number}", number) for number in range(1, 31))


class Listed(App[None]):
    """A list that fills the screen."""

    CSS = "Rows { overflow-x: hidden; height: 1fr; scrollbar-size-vertical: 1; }"

    def __init__(self, *rows: Row) -> None:
        super().__init__()
        for theme in themes_on(terminal_of(self)):
            self.register_theme(theme)
        self.theme = "lamp"
        self.given, self.moves = rows, 0

    def compose(self) -> ComposeResult:
        yield Rows(self.given)

    def on_rows_moved(self) -> None:
        self.moves += 1


@pytest.fixture
def listed() -> Listed:
    return Listed(Row("Few"), MANY[0], MANY[19])


async def test_other_rows_leave_the_cursor_in_sight(listed) -> None:
    async with listed.run_test(size=(30, 8)) as pilot:
        await until_seen(pilot, "row 20")
        rows = listed.query_one(Rows)
        rows.begin_with(20)
        rows.set_rows((Row("Many"), *MANY))
        assert "› row 20" in await until_seen(pilot, "› row 20")
        rows.set_rows((Row("Few"), MANY[0], MANY[19]))
        assert "Few" in await until_seen(pilot, "› row 20")


async def test_the_cursor_goes_to_the_value_that_takes_its_place(listed) -> None:
    async with listed.run_test(size=(30, 8)) as pilot:
        await until_seen(pilot, "row 20")
        rows = listed.query_one(Rows)
        rows.begin_with(20)
        rows.set_rows(MANY[:10], 7)
        assert rows.chosen == 7
        rows.set_rows(MANY[:5], 40)
        assert rows.chosen == 1


async def test_a_smaller_screen_leaves_the_cursor_in_sight() -> None:
    app = Listed(*MANY)
    async with app.run_test(size=(30, 30)) as pilot:
        await until_seen(pilot, "row 30")
        app.query_one(Rows).begin_with(29)
        await until_seen(pilot, "› row 29")
        await pilot.resize_terminal(30, 8)
        await until(pilot, lambda: "› row 29" in screen_text(app) and "row 12" not in screen_text(app))


async def test_the_first_and_the_last_row_are_told_of_as_any_other() -> None:
    app = Listed(*MANY)
    async with app.run_test(size=(30, 8)) as pilot:
        await until_seen(pilot, "› row 1")
        rows, before = app.query_one(Rows), app.moves
        rows.to_last()
        await until(pilot, lambda: app.moves == before + 1)
        assert rows.chosen == 30
        rows.to_first()
        await until(pilot, lambda: app.moves == before + 2)
        assert rows.chosen == 1


async def test_what_is_cut_off_shows_that_it_is() -> None:
    app = Listed(Row("linen 0.6: 14.1 mm a knot (3 tests)", 1), Row("a piece of that name", 2, "▲ recount"))
    async with app.run_test(size=(30, 4)) as pilot:
        lines = (await until_seen(pilot, "recount")).splitlines()
        assert lines[0].rstrip().endswith(" …")
        assert lines[1].split() == ["a", "piece", "of", "…", "▲", "recount"]


async def test_beads_stand_in_their_place_whatever_the_name(monkeypatch) -> None:
    """Letters that take two columns before them, more place than beads after them, and the mark at the end."""
    row = Row("誕生日  ••••••••  9 of 18", "way", "▲ off", strip=StripPlace(8, 8))
    app = Listed(row, Row("another", "other", strip=StripPlace(8, 8)), Row("a third", "none"))
    beads = {"way": 3, "other": 8}
    async with app.run_test(size=(40, 5)) as pilot:
        rows = app.query_one(Rows)
        rows.beads_of = lambda row: [
            StripCell("R", (200, 0, 0), number < 2) for number in range(beads.get(row.value, 0))
        ]
        rows.refresh()
        await until(pilot, lambda: "●" in screen_text(app))
        first, second, third = screen_text(app).split("\n")[:3]
        assert first == " › 誕生日  ●●○       9 of 18      ▲ off"
        assert second == "   another ●●○○○○○○"
        assert third == "   a third"
        assert [row.value for row in rows.seen] == ["way", "other", "none"]


async def test_without_colours_beads_are_letters(monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = Listed(Row("one", "way", strip=StripPlace(4, 3)))
    async with app.run_test(size=(40, 5)) as pilot:
        rows = app.query_one(Rows)
        rows.beads_of = lambda row: [StripCell("R", (200, 0, 0), True), StripCell("b", None, False)]
        rows.refresh()
        await until(pilot, lambda: "Rb" in screen_text(app))
        assert screen_text(app).split("\n")[0] == " › one Rb"
