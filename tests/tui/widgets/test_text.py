"""The keys at the foot, as far as there is room for them; each sentence in its own colour."""

from __future__ import annotations

import pytest
from textual.app import App, ComposeResult
from textual.color import Color
from textual.content import Content

from companion.core.words.notices import Notice
from companion.tui.commands import BENCH, FOLLOW, HELP, Command
from companion.tui.widgets.text import KeyLine, TextLine
from companion.tui.widgets.wrapping import fitted
from tests.tui.screens import until, until_seen
from tests.tui.toolkit import looks


class Foot(App[None]):
    """A line for sentences over the keys."""

    def __init__(self, *commands: Command) -> None:
        super().__init__()
        self.given, self.clicked = commands, []

    def compose(self) -> ComposeResult:
        yield TextLine("", id="said")
        yield KeyLine(*self.given)

    def on_key_line_chosen(self, message: KeyLine.Chosen) -> None:
        self.clicked.append(message.command)


@pytest.mark.parametrize("columns", [6, 21, 40, 60, 80, 200])
@pytest.mark.parametrize("commands", [FOLLOW, BENCH], ids=["follow", "bench"])
async def test_the_help_and_the_last_key_stay_and_none_is_cut_off(commands, columns) -> None:
    app = Foot(*commands)
    async with app.run_test(size=(columns, 4)) as pilot:
        await pilot.pause()
        line = app.query_one(KeyLine)
        kept = [command for *_, command in line.shown()]
        offered = [command for command in commands if command.short]
        assert kept[-1] is offered[-1]
        assert HELP in kept or columns < len("? more   Esc quit")
        assert kept == [command for command in offered if command in kept]
        whole = "   ".join(f"{command.shown} {command.short}" for command in kept)
        assert line.render().plain == whole
        assert len(whole) <= columns or len(kept) == 1
        assert [whole[first:after] for first, after, _ in line.shown()] == whole.split("   ")
        if columns == 200:
            assert len(kept) == len(offered)


async def test_a_click_on_a_key_is_that_key_and_beside_it_none() -> None:
    app = Foot(*BENCH)
    async with app.run_test(size=(80, 4)) as pilot:
        await pilot.pause()
        line = app.query_one(KeyLine)
        for first, after, _ in line.shown():
            await pilot.click(line, offset=(first, 0))
            await pilot.click(line, offset=(after - 1, 0))
            await pilot.click(line, offset=(after, 0))
        assert app.clicked == [command for *_, command in line.shown() for _ in range(2)]


async def test_each_sentence_has_the_colour_of_how_much_it_matters() -> None:
    app = Foot(*BENCH)
    async with app.run_test(size=(80, 8)) as pilot:
        line = app.query_one("#said", TextLine)
        for levels in (("quiet",), ("watch", "quiet"), ("watch", "off", "quiet")):
            line.say([Notice(level, f"A {level} one.") for level in levels])
            await until_seen(pilot, f"A {levels[-1]} one.")
            of_theme = {"quiet": "foreground", "watch": "warning", "off": "error"}
            for row, level in enumerate(levels):
                style = next(segment.style for segment in looks.strips(app)[row] if segment.text.strip())
                colour = Color.parse(app.theme_variables[of_theme[level]])
                assert style.color.get_truecolor() == colour.rgb
                assert bool(style.bold) == (level == "off")


class Grows(App[None]):
    """A line as high as its text."""

    CSS = "TextLine { height: auto; }"

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text

    def compose(self) -> ComposeResult:
        yield TextLine(self.text)


@pytest.mark.parametrize("columns", range(24, 61, 4))
async def test_no_length_is_torn_apart_in_a_line_that_grows_with_its_text(columns) -> None:
    text = "The leftover cord should measure 57 1/2 ± 1 5/16 in each.\nMeasure from the last knot."
    app = Grows(text)
    async with app.run_test(size=(columns, 12)) as pilot:
        await pilot.pause()
        line = app.query_one(TextLine)
        rows = line.shown.plain.split("\n")
        assert any("57 1/2 ± 1 5/16 in" in row for row in rows)
        assert " ".join(rows) == text.replace("\n", " ")
        assert line.size.height == len(rows)
        assert all(len(row) <= columns for row in rows)


async def test_what_is_set_in_stays_set_in() -> None:
    app = Grows("  knots      ‹ every ›\nname\n\n  a  b")
    async with app.run_test(size=(60, 12)) as pilot:
        await pilot.pause()
        assert app.query_one(TextLine).shown.plain == app.text


async def test_in_one_paragraph_the_one_that_matters_most_colours_it() -> None:
    assert fitted([Notice("quiet", "Done."), Notice("watch", "", "", "Keep an eye.")], 40, 1) == [
        ("Done. △ Keep an eye.", "watch")
    ]


async def test_what_was_fitted_is_fitted_again_where_its_place_has_another_width() -> None:
    app = Foot(*BENCH)
    async with app.run_test(size=(80, 4)) as pilot:
        line = app.query_one("#said", TextLine)
        await until(pilot, lambda: line.content_size.width > 60)
        line.fit(lambda width: Content(f"wide, {width}" if width > 60 else f"narrow, {width}"))
        await until_seen(pilot, "wide")
        await pilot.resize_terminal(40, 4)
        await until_seen(pilot, "narrow")
        line.show("as it is")
        await pilot.resize_terminal(80, 4)
        await until(pilot, lambda: line.content_size.width > 60)
        await until_seen(pilot, "as it is")
