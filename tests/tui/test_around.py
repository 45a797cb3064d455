"""What surrounds a piece: other windows, failing disks, hostile names, terminals without colour."""

from __future__ import annotations

from rich.cells import cell_len

from companion.core.values.errors import NotStored
from companion.tui.app import TallycordApp
from companion.tui.dialogs.show import ShowDialog
from companion.tui.follow.screen import FollowScreen
from tests.tui.screens import screen_text, until, until_seen


async def test_another_window_shows_at_once(app, other_window) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 33")
        theirs = other_window.open("skerry-bracelet")
        for _ in range(4):
            theirs = other_window.confirm(theirs)
        app.screen.look_again()
        await until_seen(pilot, "step 6 of 33")


async def test_a_stale_key_is_not_counted_and_the_screen_catches_up(app, other_window, monkeypatch) -> None:
    monkeypatch.setattr(FollowScreen, "look_again", lambda self: None)  # before its timer is set on it
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 33")
        other_window.confirm(other_window.open("skerry-bracelet"))
        await pilot.press("space")
        await until_seen(pilot, "has changed")
        assert app.screen.opened.piece.done == 2
        await pilot.press("space")
        await until(pilot, lambda: app.screen.opened.piece.done == 3)


async def test_a_step_that_is_not_stored_is_not_shown(app, workshop, monkeypatch) -> None:
    async with app.run_test(size=(80, 24), notifications=True) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", "space")
        await until_seen(pilot, "step 2 of 33")

        def full(*_: object) -> None:
            raise NotStored("The disk is full: nothing was saved. Make room, then confirm again.")

        with monkeypatch.context() as broken:
            broken.setattr(workshop._store, "append", full)
            await pilot.press("space")
            await until_seen(pilot, "▲ The disk is full")
            assert "step 2 of 33" in screen_text(app)
            assert app.screen.opened.piece.done == 1
        await pilot.press("space")
        await until_seen(pilot, "step 3 of 33")


async def test_hostile_names_are_only_text(workshop, tmp_path) -> None:
    path = tmp_path / "bad[@click=app.quit]x.yaml"
    path.write_text(
        "format: 1\nname: '[@click=app.quit]Press[/] [red]me'\nnote: '[b]x'\ncord: {name: '[u]c', diameter: 1 mm}\n"
        "beads: {b: {name: '[@click=app.bell]Bead[/]', length: 6 mm, colour: '[red]'}}\n"
        "strand: {layout: [{repeat: 9, of: [b, knot]}]}\n"
    )
    app = TallycordApp(workshop, design=path)
    async with app.run_test(size=(120, 40)) as pilot:
        assert "[@click=app.quit]Press[/] [red]me" in await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 3)
        assert "[@click=app.bell]Bead[/]" in await until_seen(pilot, "step 4 of 14")
        for name, title in (("question_mark", "Keys and marks"), ("s", "Take care")):
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
    app = TallycordApp(workshop, design=path)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 3)
        text = await until_seen(pilot, "step 4 of 14")
        await until_seen(pilot, "strand now")
        assert "then a single knot" in screen_text(app)
        assert all(cell_len(line) <= 60 for line in text.splitlines())
        await pilot.press("escape")
        await until_seen(pilot, "3 of 14")
        assert all(cell_len(line) <= 60 for line in screen_text(app).splitlines())


async def test_without_colour_the_marks_carry_the_meaning(workshop, skerry, monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = TallycordApp(workshop, design=skerry)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Enter begin")
        await pilot.press("enter", *["space"] * 17, "m", *"3", "space", "enter", "enter")
        text = await until_seen(pilot, "△ Your reading of the strand")
        assert "▲" in text  # where you are
        assert "█G█" in text
        assert "░g░" in text
