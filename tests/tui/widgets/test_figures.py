"""Numbers in block digits with their words."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.geometry import Size

from companion.tui.widgets.figures import Figure, Figures, times_on
from tests.tui.screens import screen_text, until

CUT = Figure("46 3/16", "in", ("of twisted silk, used doubled", "1 in 100 would run out"))
OTHER = Figure("9", "in", ("apart, for the sliding knot",))


class Shown(App):
    CSS = "Figures { height: auto; }"

    def __init__(self, *figures: Figure) -> None:
        super().__init__()
        self.figures = figures

    def compose(self) -> ComposeResult:
        yield Figures(self.figures)


async def seen(size: tuple[int, int], *figures: Figure) -> list[str]:
    app = Shown(*figures)
    async with app.run_test(size=size) as pilot:
        await until(pilot, lambda: "silk" in screen_text(app))
        return screen_text(app).split("\n")


async def test_words_stand_beside_their_number_in_one_column() -> None:
    lines = await seen((90, 12), CUT, OTHER)
    assert lines[0] == "█ █ █▀▀     ▀▀█   █ ▄█  █▀▀"
    assert lines[2].startswith("  ▀ ▀▀▀     ▀▀▀ ▀   ▀▀▀ ▀▀▀ in   1 in 100")
    assert lines[3] == ""
    assert {line.index(word) for line, word in ((lines[1], "of"), (lines[2], "1 in"), (lines[6], "apart"))} == {33}


async def test_on_a_narrow_place_they_stand_below() -> None:
    lines = await seen((50, 12), CUT)
    assert lines[2].endswith("in")
    assert lines[3:5] == ["of twisted silk, used doubled", "1 in 100 would run out"]


async def test_on_a_wall_they_are_twice_as_large() -> None:
    assert [times_on(Size(*size)) for size in ((120, 40), (160, 49), (160, 50), (200, 60))] == [1, 1, 2, 2]
    lines = await seen((200, 60), CUT)
    assert lines[0].startswith("██  ██  ██████")
    assert "in   1 in 100 would run out" in lines[4]


async def test_many_words_begin_beside_the_top_of_the_number() -> None:
    figure = Figure("7", "mm", ("of silk", *(f"line {number}" for number in range(4))))
    lines = await seen((60, 12), figure)
    assert lines[0] == "▀▀█      of silk"
    assert lines[2] == " ▀  mm   line 1"
    assert lines[4] == "         line 3"
