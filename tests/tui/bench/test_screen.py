"""The bench: what lies on it, and where it leads."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.tui.app import TallycordApp
from companion.tui.routes import ToDesign, ToPiece
from tests.tui.screens import screen_text, until, until_seen


async def test_a_design_with_faults_says_so_on_the_bench(workshop, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "broken.yaml").write_text("format: 1\nnmae: x\n")
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "broken")
        await pilot.press("enter")
        await until_seen(pilot, "where it means nothing")


async def test_find_narrows_the_bench(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "skerry-bracelet")
        await pilot.press("slash", *"wolf")
        await until(pilot, lambda: "skerry-bracelet" not in screen_text(app))
        await pilot.press("enter")
        assert "wolf-rock-necklace" in await until_seen(pilot, "Enter begin")


async def test_cord_cards_stand_on_the_bench(workshop, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    test = CardTest("single", KnotTest(300.0, 238.0, 10), None, "30 cm to 23.8 cm")
    workshop.add_tests(CordCard("waxed linen", 0.6, 1, "waxed linen", "awl", ()), test)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "waxed linen 0.6: 6.2 ± ")
        place = next(n for n, row in enumerate(app.screen.query_one("Rows").rows) if "waxed" in row.text)
        await pilot.click("Rows", offset=(8, place))
        await until_seen(pilot, "Cord card · waxed linen")


@pytest.fixture
def elsewhere(tmp_path, monkeypatch) -> Path:
    """A folder without designs, that Tallycord is started in."""
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return folder


def names(workshop) -> list[tuple[str, str]]:
    return sorted((row.name, row.state) for row in workshop.pieces())


async def test_a_piece_is_renamed_at_its_row_and_u_undoes_it(workshop, skerry, elsewhere) -> None:
    workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "N rename")
        await pilot.press("N", "ctrl+u", *"For", "space", *"Anna", "enter")
        await until_seen(pilot, "is now named For Anna. u undoes it.")
        assert names(workshop) == [("For Anna", "under way")]
        assert app.screen.rows.chosen == ToPiece("For Anna")
        await pilot.press("enter")
        await until_seen(pilot, "For Anna · wrist 6 1/2 in")
        await pilot.press("escape")
        await until_seen(pilot, "N rename")
        await pilot.press("N", "ctrl+u", *"x", "enter")
        await until_seen(pilot, "For Anna is now named x.")
        await pilot.press("u")
        await until_seen(pilot, "Undone:")
        assert names(workshop) == [("For Anna", "under way")]


async def test_a_name_that_another_piece_has_is_refused_while_it_is_typed(workshop, skerry, elsewhere) -> None:
    workshop.rename(workshop.start(skerry), "For Anna")
    workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "N rename")
        await pilot.press("N", "ctrl+u", *"for-anna")
        await until_seen(pilot, "Another piece is named For Anna.")
        await pilot.press("enter", "escape")
        await until_seen(pilot, "N rename")
        assert names(workshop) == [("For Anna", "under way"), ("skerry-bracelet", "under way")]


async def test_a_piece_is_put_away_and_taken_up_again_at_its_row(workshop, skerry, elsewhere) -> None:
    workshop.confirm(workshop.start(skerry))
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 30)) as pilot:
        await until_seen(pilot, "a put away")
        await pilot.press("a", "escape")  # thought better of
        await until_seen(pilot, "a put away")
        assert names(workshop) == [("skerry-bracelet", "under way")]
        await pilot.press("a", *"teal", "enter")
        text = await until_seen(pilot, "is put away")
        assert names(workshop) == [("skerry-bracelet", "abandoned")]
        assert "a take up again" in text
        assert " Put away" in text
        await pilot.press("a")
        await until_seen(pilot, "is under way again")
        assert names(workshop) == [("skerry-bracelet", "under way")]
        await pilot.press("u")
        await until_seen(pilot, "and is put away, as before")
        assert names(workshop) == [("skerry-bracelet", "abandoned")]


async def test_the_keys_at_the_foot_are_those_of_the_row(workshop, skerry, elsewhere, monkeypatch) -> None:
    test = CardTest("single", KnotTest(300.0, 238.0, 10), None, "30 cm to 23.8 cm")
    workshop.add_tests(CordCard("waxed linen", 0.6, 1, "waxed linen", "awl", ()), test)
    workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 30)) as pilot:
        await until_seen(pilot, "Enter go on N rename a put away + another")
        refreshed: list[str] = []
        monkeypatch.setattr(app.screen, "refresh_bindings", lambda: refreshed.append("the toolkit's bindings"))
        await pilot.press("down")
        await until_seen(pilot, "Enter open + new card")
        await pilot.press("down")
        text = await until_seen(pilot, "Enter begin p plan e copy")
        assert "+" not in text.splitlines()[-1]
        place = next(n for n, row in enumerate(app.screen.rows.rows) if row.value == ToDesign(skerry))
        app.screen.rows.move(place - app.screen.rows.cursor)
        await until_seen(pilot, "Enter go on + another")
        assert refreshed == []


async def test_plus_on_a_card_makes_a_card(workshop, elsewhere) -> None:
    workshop.add_tests(CordCard("waxed linen", 0.6, 1, "waxed linen", "awl", ()))
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "+ new card")
        await pilot.press("plus")
        await until_seen(pilot, "diameter")
        assert type(app.screen).__name__ == "FormDialog"


async def test_a_filter_shows_that_it_is_on_and_escape_first_clears_it(workshop, skerry, elsewhere) -> None:
    workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("slash", *"wolf", "enter")
        text = await until_seen(pilot, 'Bench · only "wolf" (Esc shows all)')
        assert "Esc show all" in await until_seen(pilot, "Esc show all")
        assert "skerry" not in text
        await pilot.press("escape")
        text = await until_seen(pilot, "skerry-bracelet")
        assert "only" not in text
        assert "Esc quit" in text
        assert app.is_running
        await pilot.press("escape")
        await until(pilot, lambda: not app.is_running)


async def test_designs_of_the_maker_s_own_are_there_whatever_folder_she_starts_in(workshop, skerry, elsewhere) -> None:
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        text = await until_seen(pilot, "None yet. d makes one.")
        folder = workshop.designs_folder
        assert folder.is_dir()
        assert folder.name in text
        (folder / "moss.yaml").write_text(skerry.read_text(encoding="utf-8"), encoding="utf-8")
        (elsewhere / "here.yaml").write_text(skerry.read_text(encoding="utf-8"), encoding="utf-8")
        app.screen.look_again()
        text = await until_seen(pilot, "moss")
        assert "None yet" not in text
        titles = [row.text for row in app.screen.rows.rows if row.value is None and row.text and not row.detail]
        assert titles == ["Your designs", "Designs in this folder", "Designs that come with Tallycord"]
        app.screen.rows.begin_with(ToDesign(folder / "moss.yaml"))
        await pilot.press("enter")
        await until_seen(pilot, "Skerry bracelet · wrist 6 1/2 in")


async def test_coming_back_the_cursor_is_where_it_was_and_one_esc_too_many_leaves_nothing(
    workshop, monkeypatch
) -> None:
    monkeypatch.setattr(
        "companion.tui.bench.screen.monotonic", lambda: 5.0
    )  # however slow the machine is, no time passes
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("down", "down", "enter")
        await until_seen(pilot, "Fastnet cuff")
        await pilot.press("escape")
        await until_seen(pilot, "Esc quit")
        await pilot.press("escape")
        await until_seen(pilot, "This is the bench. Esc again leaves Tallycord.")
        assert "› fastnet-cuff" in screen_text(app)
        await pilot.press("escape")
        await until(pilot, lambda: app.return_code is not None)


async def test_the_cursor_is_in_sight_when_the_filter_is_cleared(workshop, skerry, elsewhere) -> None:
    workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("slash", *"wolf", "enter")
        await until_seen(pilot, "› wolf-rock-necklace")
        await pilot.press("escape")
        text = await until_seen(pilot, "Esc quit")
        assert "› wolf-rock-necklace" in text
        await pilot.press("enter")
        await until_seen(pilot, "Wolf Rock necklace · length")


async def test_end_and_home_bring_the_keys_of_their_rows(workshop, skerry, elsewhere) -> None:
    workshop.start(skerry)
    workshop.abandon(workshop.start(skerry))
    app = TallycordApp(workshop)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "a put away")
        await pilot.press("end")
        assert "› Skerry bracelet 2" in await until_seen(pilot, "Enter look at it a take up again ? more Esc quit")
        await pilot.press("home")
        await until_seen(pilot, "Enter go on N rename a put away ? more Esc quit")


async def test_enter_opens_the_same_piece_though_it_is_renamed_elsewhere(
    workshop, other_window, skerry, elsewhere
) -> None:
    first = workshop.confirm(workshop.start(skerry))
    workshop.start(skerry)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Skerry bracelet 2")
        await pilot.press("down")
        await until_seen(pilot, "› Skerry bracelet ")
        other_window.rename(other_window.open(first.name), "For Anna")
        app.screen.look_again()
        await until_seen(pilot, "› For Anna")
        await pilot.press("enter")
        await until_seen(pilot, "For Anna · wrist 6 1/2 in")


async def test_plus_on_an_ended_piece_begins_another_of_its_design(workshop, skerry, elsewhere) -> None:
    workshop.abandon(workshop.start(skerry))
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("end", "plus")
        await until_seen(pilot, "Enter begin c cut")
        await pilot.press("enter")
        await until_seen(pilot, "On length.")
        assert names(workshop) == [("skerry-bracelet", "abandoned"), ("skerry-bracelet-2", "under way")]


async def test_plus_on_a_piece_whose_design_is_gone_says_where_it_was(workshop, skerry, elsewhere) -> None:
    moved = elsewhere / "moss.yaml"
    moved.write_text(skerry.read_text(encoding="utf-8"), encoding="utf-8")
    workshop.start(moved)
    moved.unlink()
    app = TallycordApp(workshop)
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(pilot, "a put away")
        await pilot.press("plus")
        text = await until_seen(pilot, "Put the file back, or choose a design here.")
        assert "The design of this piece is gone:" in text
        assert "moss.yaml" in text
        assert type(app.screen).__name__ == "BenchScreen"


async def test_a_piece_put_away_says_so_and_is_taken_up_with_the_name_it_has_by_now(
    workshop, skerry, elsewhere
) -> None:
    away = workshop.abandon(workshop.jump(workshop.start(skerry), 9))
    workshop.rename(away, "For Anna")
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("end", "enter")
        text = await until_seen(pilot, "The piece is put away. u takes it up again.")
        assert "u take up again" in text
        await pilot.press("space")
        await until_seen(pilot, "This piece is put away. Undo opens it again.")
        await pilot.press("u")
        await until_seen(pilot, "That is step 9 of 33.")  # what to count again
        assert names(workshop) == [("For Anna", "under way")]


async def test_ctrl_c_says_that_a_filter_is_cleared_first(workshop, elsewhere) -> None:
    app = TallycordApp(workshop)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Esc quit")
        await pilot.press("ctrl+c")
        await until_seen(pilot, "Esc leaves Tallycord. Nothing is lost.")
        await pilot.press("slash", *"wolf", "enter")
        await until_seen(pilot, "Esc show all")
        await pilot.press("ctrl+c")
        await until_seen(pilot, "Esc shows all rows, and Esc again leaves Tallycord.")


async def test_on_a_low_screen_the_hint_takes_one_row_at_every_look(workshop, elsewhere) -> None:
    app = TallycordApp(workshop)
    async with app.run_test(size=(60, 18)) as pilot:
        text = await until_seen(pilot, "None yet. d makes one.")
        assert "Files go in" not in text
        await pilot.press("k")
        await until_seen(pilot, "No cord cards yet.")
        await pilot.press("escape")
        assert "Files go in" not in await until_seen(pilot, "None yet. d makes one.")
        await pilot.resize_terminal(80, 24)
        await until_seen(pilot, "Files go in")


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24)])
async def test_a_design_is_told_by_its_size_kind_cord_and_closure(workshop, tmp_path, monkeypatch, dimensions) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "fastnet-cuff wrist 170 mm, loop and button")
        app.screen.rows.begin_with(
            ToDesign(next(path for path in workshop.shipped_designs() if "fastnet" in path.stem))
        )
        await until_seen(pilot, "long when closed. Round leather 1.5 mm. Loop and button.")


async def test_what_was_read_for_a_page_that_is_being_left_is_dropped(workshop, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "long when closed.")
        for part in ("#in-short", "Rows"):
            await app.screen.query_one(part).remove()
            app.screen.sketching._show()  # read in a thread, it comes when it comes


async def test_the_plan_of_a_design_opens_without_a_piece(workshop, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    app = TallycordApp(workshop)
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "Enter begin")
        name = app.screen.rows.chosen.path.stem
        await pilot.press("p")
        await until_seen(pilot, "Enter begin Tab next part e copy")
        text = "\n".join(line.text for line in app.screen.text())
        for words in ("Cut", "Count out", "You will need", "Steps", "Take care", "long when closed"):
            assert words in text, words
        assert workshop.pieces() == ()
        await pilot.press("escape")
        await until_seen(pilot, f"› {name}")
