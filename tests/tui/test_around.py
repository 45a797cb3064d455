"""What surrounds a piece: other windows, failing disks, hostile names, colours, keys."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.values.errors import NotStored
from companion.tui import commands
from companion.tui.app import CompanionApp
from companion.tui.bench.screen import BenchScreen
from companion.tui.commands import Command
from companion.tui.cords.card import CardScreen
from companion.tui.cords.screen import CordsScreen
from companion.tui.dialogs.ask import AskDialog
from companion.tui.dialogs.choose import ChoiceDialog
from companion.tui.dialogs.form import FormDialog
from companion.tui.dialogs.show import ShowDialog
from companion.tui.follow.recap import RecapScreen
from companion.tui.follow.screen import FollowScreen
from companion.tui.start.screen import StartScreen
from companion.tui.start.which_piece import WhichPieceScreen
from tests.tui.screens import screen_text, until, until_seen

SCREENS = {
    FollowScreen: commands.FOLLOW,
    BenchScreen: commands.BENCH,
    StartScreen: commands.START,
    WhichPieceScreen: commands.CHOOSE,
    RecapScreen: commands.RECAP,
    CordsScreen: commands.CORDS,
    CardScreen: commands.CARD,
    AskDialog: commands.ASK,
    FormDialog: commands.FORM,
    ChoiceDialog: (*map(commands.choosing, range(1, 10)), *commands.PICK),
    ShowDialog: commands.SHOW,
}


@pytest.mark.parametrize("screen", SCREENS, ids=lambda screen: screen.__name__)
def test_no_key_twice_and_every_command_has_its_action(screen) -> None:
    keys = [key for command in SCREENS[screen] for key in command.keys.split(",")]
    assert len(keys) == len(set(keys))
    for command in SCREENS[screen]:
        assert hasattr(screen, f"action_{command.action.partition('(')[0]}"), command


def test_the_same_key_means_the_same_everywhere() -> None:
    """But for the keys that take, begin or go on, and those that leave."""
    meaning: dict[str, set[str]] = {}
    for command in (value for value in vars(commands).values() if isinstance(value, Command)):
        for key in command.keys.split(","):
            meaning.setdefault(key, set()).add(command.action)
    # c: the cord, cut or checked; k: a knot, how it is tied or what it takes; n: a note, or a new piece
    free = {"enter", "space", "escape", "q", "c", "k", "n"}
    assert {key for key, actions in meaning.items() if len(actions) > 1} <= free


async def test_another_window_shows_at_once(app, other_window) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 28")
        theirs = other_window.open("skerry-bracelet")
        for _ in range(4):
            theirs = other_window.confirm(theirs)
        app.screen.look_again()
        await until_seen(pilot, "step 6 of 28")


async def test_a_stale_key_is_not_counted_and_the_screen_catches_up(app, other_window, monkeypatch) -> None:
    monkeypatch.setattr(FollowScreen, "look_again", lambda self: None)  # before its timer is set on it
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 28")
        other_window.confirm(other_window.open("skerry-bracelet"))
        await pilot.press("space")
        await until_seen(pilot, "moved on")
        assert app.screen.opened.piece.done == 2
        await pilot.press("space")
        await until(pilot, lambda: app.screen.opened.piece.done == 3)


async def test_a_step_that_is_not_stored_is_not_shown(app, workshop, monkeypatch) -> None:
    async with app.run_test(size=(80, 24), notifications=True) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 28")

        def full(*_: object) -> None:
            raise NotStored("The disk is full: nothing was stored. Make room, then confirm again.")

        with monkeypatch.context() as broken:
            broken.setattr(workshop._store, "append", full)
            await pilot.press("space")
            await until_seen(pilot, "▲ The disk is full")
            assert "step 2 of 28" in screen_text(app)
            assert app.screen.opened.piece.done == 1
        await pilot.press("space")
        await until_seen(pilot, "step 3 of 28")


async def test_several_pieces_ask_which(workshop, skerry) -> None:
    first, second = workshop.start(skerry), workshop.start(skerry)
    workshop.confirm(second)
    app = CompanionApp(workshop, design=skerry)
    async with app.run_test(size=(60, 18)) as pilot:
        text = await until_seen(pilot, "Which one?")
        assert first.name in text
        assert second.name in text
        await pilot.press("enter")
        await until_seen(pilot, "Last made")
    app = CompanionApp(workshop, design=skerry, new=True)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")


async def test_hostile_names_are_only_text(workshop, tmp_path) -> None:
    path = tmp_path / "bad[@click=app.quit]x.yaml"
    path.write_text(
        "format: 1\nname: '[@click=app.quit]Press[/] [red]me'\nnote: '[b]x'\ncord: {name: '[u]c', diameter: 1 mm}\n"
        "beads: {b: {name: '[@click=app.bell]Bead[/]', length: 6 mm, colour: '[red]'}}\n"
        "strand: {layout: [{repeat: 9, of: [b, knot]}]}\n"
    )
    app = CompanionApp(workshop, design=path)
    async with app.run_test(size=(120, 40)) as pilot:
        assert "[@click=app.quit]Press[/] [red]me" in await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        assert "[@click=app.bell]Bead[/]" in await until_seen(pilot, "step 2 of 11")
        for name, title in (("question_mark", "Keys and marks"), ("s", "What to mind")):
            await pilot.press(name)
            await until_seen(pilot, title)
            assert isinstance(app.screen, ShowDialog)
            await pilot.press("escape")
            await until(pilot, lambda: isinstance(app.screen, FollowScreen))
        await pilot.press("escape")
        assert "[@click=app.quit]Press" in await until_seen(pilot, "Under way")


async def test_names_of_wide_letters_keep_the_screen_in_order(workshop, tmp_path) -> None:
    path = tmp_path / "wide.yaml"
    path.write_text(
        "format: 1\nname: 灯台のとても長い名前のネックレス 灯台のとても長い名前のネックレス\n"
        "cord: {name: 絹糸, diameter: 1 mm}\n"
        "beads: {b: {name: 真珠のとても大きな丸い玉, length: 6 mm}}\n"
        "strand: {layout: [{repeat: 9, of: [b, b, b, knot]}]}\n"
    )
    app = CompanionApp(workshop, design=path)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        text = await until_seen(pilot, "step 2 of 11")
        await until_seen(pilot, "strand now")
        assert "then a single knot" in screen_text(app)
        assert all(cell_len(line) <= 60 for line in text.splitlines())
        await pilot.press("escape")
        await until_seen(pilot, "1 of 11")
        assert all(cell_len(line) <= 60 for line in screen_text(app).splitlines())


async def test_without_colour_the_marks_carry_the_meaning(workshop, skerry, monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = CompanionApp(workshop, design=skerry)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 14, "m", *"3", "space", "enter", "enter")
        text = await until_seen(pilot, "△ Measure again")
        assert "▲" in text  # where the work stands
        assert "█G█" in text
        assert "░g░" in text


async def test_all_colours_can_be_chosen(app) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        seen = []
        for _ in range(4):
            seen.append(app.theme)
            await pilot.press("t")
            await until(pilot, lambda before=seen[-1]: app.theme != before)
        assert len(set(seen)) == 4
        assert app.theme == seen[0]


async def test_a_design_with_faults_says_so_on_the_bench(workshop, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "broken.yaml").write_text("format: 1\nnmae: x\n")
    app = CompanionApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "broken")
        await pilot.press("enter")
        await until_seen(pilot, "unknown key")


async def test_find_narrows_the_bench(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    app = CompanionApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "skerry-bracelet")
        await pilot.press("slash", *"wolf")
        await until(pilot, lambda: "skerry-bracelet" not in screen_text(app))
        await pilot.press("enter")
        assert "wolf-rock-necklace" in await until_seen(pilot, "Enter go on")


async def test_ten_thousand_steps_draw_only_what_shows(workshop, tmp_path) -> None:
    path = tmp_path / "long.yaml"
    path.write_text(
        "format: 1\nname: Long light\ncord: {name: c, diameter: 1 mm}\nbeads: {b: {length: 6 mm}}\n"
        "strand: {layout: [{repeat: 10000, of: [b, knot]}]}\n"
    )
    app = CompanionApp(workshop, design=path)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter")
        await until_seen(pilot, "step 1 of 10002")
        await pilot.press("j", *"9000", "enter")
        await until_seen(pilot, "step 9001 of 10002")
        assert "▲" in screen_text(app)
        picture = app.screen.query_one("StrandPicture")
        drawn: list[int] = []
        original = type(picture).render_line
        type(picture).render_line = lambda self, y: (drawn.append(y), original(self, y))[1]
        try:
            await pilot.press("space")
            await until_seen(pilot, "step 9002 of 10002")
        finally:
            type(picture).render_line = original
        assert 0 < len(drawn) <= 4 * picture.size.height


async def test_cord_cards_stand_on_the_bench(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    test = CardTest("single", KnotTest(203.2, 196.85, 1), None, "8 in to 7 3/4 in")
    workshop.add_tests(CordCard("waxed linen", 0.6, 1, "waxed linen", "awl", ()), test)
    app = CompanionApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "waxed linen 0.6: 6.4 ± ")
        place = next(n for n, row in enumerate(app.screen.query_one("Rows").rows) if "waxed" in row.text)
        await pilot.click("Rows", offset=(8, place))
        await until_seen(pilot, "Cord card · waxed linen")
