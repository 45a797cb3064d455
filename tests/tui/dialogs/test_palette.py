"""The palette: every page offers all that can be done on it, by its words, and nothing that does nothing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from companion.core.draft.draft import Draft
from companion.tui import commands
from companion.tui.app import TallycordApp
from companion.tui.commands import FOLLOW, ONLY_KEYS, Command
from companion.tui.dialogs.palette import PaletteDialog, found
from companion.tui.page import Page
from companion.tui.routes import (
    Route,
    ToBench,
    ToCard,
    ToCords,
    ToDesign,
    ToDraft,
    ToKnots,
    ToPiece,
    ToPlan,
    ToSettings,
    ToSteps,
)
from companion.tui.widgets.rows import Rows
from companion.workshop import OpenPiece, Workshop
from tests.examples import LONG
from tests.tui.cards import SILK, SILK_TESTS
from tests.tui.screens import screen_text, until, until_seen

SIZE = (80, 24)
SEVERAL = 4  # actions of a page are tried; all of them in the long run


def offered(page: Page) -> list[Command]:
    return [command for command in page.commands_now() if command.action not in ONLY_KEYS]


# -- each page in a state or two, and what does nothing there --------------------------------------------------------


def _piece(workshop: Workshop, design: Path, steps: int = 0) -> OpenPiece:
    opened = workshop.start(design)
    return workshop.jump(opened, steps) if steps else opened


def _finished(workshop: Workshop, design: Path) -> OpenPiece:
    opened = _piece(workshop, design, 33)
    return workshop.finish(opened, 200.0, None, None)


def _put_away(workshop: Workshop, design: Path) -> OpenPiece:
    return workshop.abandon(_piece(workshop, design, 4), "")


def _undone(workshop: Workshop, design: Path) -> OpenPiece:
    return workshop.undo(workshop.measure(_piece(workshop, design, 12), "strand", 60.0, "60 mm"))


def _bench_at_piece(workshop: Workshop, design: Path) -> Route:
    return ToBench(at=ToPiece(_piece(workshop, design, 4).name))


def _bench_at_design(workshop: Workshop, design: Path) -> Route:
    return ToBench(at=ToDesign(design))


def _card(workshop: Workshop, design: Path) -> Route:
    workshop.add_tests(SILK, *SILK_TESTS)
    return ToCard(SILK.name)


def _which(workshop: Workshop, design: Path) -> Route:
    _piece(workshop, design)
    _piece(workshop, design)
    return ToDesign(design)


def _draft(workshop: Workshop, design: Path) -> Route:
    workshop.drafts.keep(Draft())
    return ToDraft(design)


WRITES = {"confirm_step", "what_to_do", "redo", "withdraw", *(f"ask('{what}')" for what in (
    "strand", "free cord", "note", "jump", "join", "count"
))}  # fmt: skip
# By name: the way there, and the actions that do nothing there.
PAGES: dict[str, tuple[Callable[[Workshop, Path], Route], set[str]]] = {
    "bench, a piece": (_bench_at_piece, {"copy_design", "undo"}),
    "bench, a design": (_bench_at_design, {"rename", "put_away", "undo"}),
    "start": (lambda workshop, design: ToDesign(design, new=True), set()),
    "which piece": (_which, set()),
    "first step": (
        lambda workshop, design: ToSteps(_piece(workshop, design)), {"undo", "redo", "withdraw", "take_over"}
    ),
    "steps": (lambda workshop, design: ToSteps(_piece(workshop, design, 12)), {"redo", "withdraw", "take_over"}),
    "steps, undone": (lambda workshop, design: ToSteps(_undone(workshop, design)), {"withdraw", "take_over"}),
    "steps, all done": (
        lambda workshop, design: ToSteps(_piece(workshop, design, 33)), {"redo", "withdraw", "take_over", "show_lore"}
    ),
    "put away": (lambda workshop, design: ToPiece(_put_away(workshop, design).name), {*WRITES, "take_over"}),
    "recap": (lambda workshop, design: ToPiece(_piece(workshop, design, 12).name), set()),
    "result": (lambda workshop, design: ToPiece(_finished(workshop, design).name), set()),
    "plan": (lambda workshop, design: ToPlan(_piece(workshop, design)), set()),
    "plan, begun": (lambda workshop, design: ToPlan(_piece(workshop, design, 4)), {"enter_cut"}),
    "cords, none": (lambda workshop, design: ToCords(), {"open_row"}),
    "card": (_card, set()),
    "knots": (lambda workshop, design: ToKnots(), set()),
    "settings": (lambda workshop, design: ToSettings(), set()),
    "design": (_draft, {"undo", "redo", "withdraw"}),
}  # fmt: skip


@pytest.fixture(params=PAGES)
def place(request, workshop: Workshop, patterns, monkeypatch, tmp_path) -> tuple[TallycordApp, set[str]]:
    monkeypatch.chdir(tmp_path)
    design = workshop.shipped_designs()[-1] if request.param == "bench, a design" else patterns / "skerry-bracelet.yaml"
    way, idle = PAGES[request.param]
    workshop.drafts.keep(Draft())
    return TallycordApp(workshop, first=way(workshop, design)), idle


async def there(pilot: Pilot) -> Page:
    await until(pilot, lambda: isinstance(pilot.app.screen, Page) and pilot.app.takes_keys())
    await until_seen(pilot, "? more")
    return pilot.app.screen


def _does_something(pilot: Pilot, page: Page, command: Command) -> Callable[[], bool]:
    app = pilot.app
    before, theme, code = screen_text(app), app.theme, app.return_code
    return lambda: app.screen is not page or screen_text(app) != before or app.theme != theme or app.return_code != code


async def test_a_page_offers_all_but_what_does_nothing_there(place, monkeypatch) -> None:
    """Each of those that are tried leads to another page, a question, a sentence, another look, or the end."""
    app, idle = place
    monkeypatch.setattr(app, "exit", lambda code: setattr(app, "_return_code", 7))
    async with app.run_test(size=SIZE) as pilot:
        page, way = await there(pilot), app.first
        commands_there = offered(page)
        every = {command.action for command in page.COMMANDS_HERE if command.action not in ONLY_KEYS}
        assert {command.action for command in commands_there} == every - idle
        await pilot.press("colon")
        await until(pilot, lambda: isinstance(app.screen, PaletteDialog))
        shown = [command for command in app.screen.query_one(Rows).values if command.action != "app.set_aside"]
        assert shown == commands_there
        await pilot.press("escape")
        await there(pilot)
        tried = commands_there if LONG else commands_there[:: len(commands_there) // SEVERAL + 1]
        for command in sorted(tried, key=lambda command: command.action == "undo"):  # it opens what has ended
            app._return_code = None
            changed = _does_something(pilot, app.screen, command)
            await app.screen.run_action(command.action)
            await until(pilot, changed)
            await until(pilot, app.takes_keys)
            while len(app.screen_stack) > 1:
                await app.screen.dismiss(None)
            way = type(way)(app.workshop.refresh(way.opened)) if isinstance(way, ToSteps | ToPlan) else way
            app.go(way)
            await there(pilot)


# -- how it is typed -------------------------------------------------------------------------------------------------


async def test_words_find_it_and_enter_does_it_however_fast(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 3, "ctrl+p", *"note", "enter")
        await until_seen(pilot, "A note at step 3.")
        await pilot.press("escape", "colon", *"undo", "enter")
        await until_seen(pilot, "Undone: step 3.")
        assert app.screen.opened.piece.done == 2


async def test_what_is_not_there_is_said_and_hostile_words_are_only_text(app) -> None:
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("colon", *"[red]@x", "enter")
        assert 'Nothing here has "[red]@x" in its words.' in await until_seen(pilot, "Nothing here has")
        assert isinstance(app.screen, PaletteDialog)
        await pilot.press("ctrl+u")
        await until_seen(pilot, "Begin with the planned cut")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, Page))


def test_a_word_of_the_key_line_comes_first_and_every_word_counts() -> None:
    assert found(FOLLOW, "cord")[0] is commands.CORD
    assert found(FOLLOW, "leftover cord") == [commands.CORD]
    assert found(FOLLOW, "MEAS")[0] is commands.MEASURE
    assert found(FOLLOW, "cord zzz") == []
    assert found(FOLLOW, " ") == list(FOLLOW)


def test_every_command_of_a_page_has_its_group_once() -> None:
    grouped = [action for _, some in commands.GROUPS for action in some]
    assert len(grouped) == len(set(grouped))
    pages = (value for value in vars(commands).values() if isinstance(value, tuple) and commands.HELP in value)
    assert {command.action for page in pages for command in page} <= set(grouped)
