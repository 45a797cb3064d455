"""The whole piece on the screen: drawn where there is colour, in letters elsewhere, and never in anybody's way."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from textual.app import App, ComposeResult

from companion.core.plan.plan import Plan
from companion.core.values.design import Bead, BeadKind, Knot
from companion.tui.contrast import Terminal
from companion.tui.themes import themes_on
from companion.tui.widgets.piece_drawing import LEAST_LINES, PieceDrawing
from tests.core.hand_plans import hand_plan, skerry_elements
from tests.tui.screens import screen_text, until

CLOSED = hand_plan(closures=("endless", "endless"))
INSIDE = ("7 in", "when closed")
HOSTILE = BeadKind("glass", "[@click=app.quit]x[/]\x1b[31m\u202e", 6, 6, 1, "\x1b]0;x\x07", "[red]")


class Shown(App):
    CSS = "PieceDrawing { height: auto; }"

    def __init__(self, plan: Plan | None, **settings) -> None:
        super().__init__()
        for theme in themes_on(Terminal()):
            self.register_theme(theme)
        self.theme = "lamp"
        self.plan, self.settings = plan, settings

    def compose(self) -> ComposeResult:
        yield PieceDrawing(self.plan, INSIDE, **self.settings)


async def seen(plan: Plan, sign: str, size: tuple[int, int] = (100, 30), **settings) -> str:
    app = Shown(plan, **settings)
    async with app.run_test(size=size) as pilot:
        await until(pilot, lambda: sign in screen_text(app))
        return screen_text(app)


async def test_a_closed_piece_is_drawn_round_what_stands_inside() -> None:
    lines = (await seen(CLOSED, "▀")).split("\n")
    (place,) = [number for number, line in enumerate(lines) if "7 in" in line]
    for line, words in zip(lines[place:], INSIDE, strict=False):
        left, _, right = line.partition(words)
        assert "▀" in left
        assert "▀" in right
        assert abs(len(left) + len(words) / 2 - 50) <= 1  # in the middle
    columns = [column for line in lines for column, sign in enumerate(line) if sign in "▀▄"]
    assert abs(min(columns) - (99 - max(columns))) <= 2  # in the middle


async def test_what_has_no_room_inside_is_left_out() -> None:
    text = await seen(CLOSED, "▀", (32, 12))
    assert "7 in" not in text
    assert "when closed" not in text


async def test_letters_are_on_large_beads_and_only_where_they_are_wanted() -> None:
    assert (await seen(CLOSED, "G", (160, 60))).count("G") == 21
    assert "G" not in await seen(CLOSED, "▀", (160, 60), lettered=False)


async def test_what_never_closes_is_drawn_in_rows() -> None:
    text = await seen(hand_plan(), "▀")
    assert "when closed" not in text
    assert text.count("G") == 21


async def test_of_a_long_piece_it_says_how_much_is_drawn() -> None:
    long = hand_plan((Bead("glass"), Knot("single")) * 3000)
    text = await seen(long, "The first ")
    assert "of 3000 beads." in text


async def test_what_the_rest_of_the_page_takes_is_left_to_it() -> None:
    for rest, lines in ((0, 15), (17, 13), (28, LEAST_LINES)):
        app = Shown(CLOSED, rest=rest)
        async with app.run_test(size=(100, 30)) as pilot:
            await until(pilot, lambda app=app: "▀" in screen_text(app))
            assert app.query_one(PieceDrawing).size.height == lines


@pytest.mark.parametrize("setting", [{"NO_COLOR": "1"}, {"COLORTERM": "", "TERM": "xterm-16color"}])
async def test_without_colours_it_is_in_letters(monkeypatch, setting) -> None:
    for name, value in setting.items():
        monkeypatch.setenv(name, value)
    plan = hand_plan(skerry_elements(), skerry_elements()[:12])
    first, second = plan.strands
    plan = replace(plan, strands=(replace(first, label="upper"), replace(second, label="lower")))
    lines = (await seen(plan, "•█G██•")).split("\n")
    assert not set("▀▄") & set("".join(lines))
    assert sum(line.count("G") for line in lines) == 21 + 6
    names = [line.strip() for line in lines if line.strip() in ("upper", "lower")]
    assert names == ["upper", "lower"]
    assert next(line for line in lines if line.strip()) == "  upper"


async def test_hostile_beads_are_only_drawn() -> None:
    plan = hand_plan(beads=(HOSTILE, CLOSED.beads[1]), closures=("endless", "endless"))
    text = await seen(plan, "▀")
    assert "\x1b" not in text
    assert "\u202e" not in text


async def test_another_plan_and_another_set_of_colours_are_drawn_anew() -> None:
    app = Shown(None)
    async with app.run_test(size=(100, 30)) as pilot:
        drawing = app.query_one(PieceDrawing)
        await pilot.pause()
        assert screen_text(app).strip() == ""
        drawing.show(CLOSED, INSIDE)
        await until(pilot, lambda: "▀" in screen_text(app))
        before = drawing._lines
        app.theme = "day"
        await until(pilot, lambda: drawing._lines is not before and drawing.is_drawn)
        assert "▀" in screen_text(app)
