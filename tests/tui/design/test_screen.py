"""The design page: a bracelet from nothing by keys alone, judged and drawn while it is typed, kept half-made."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft, Draft
from companion.core.values.errors import NotStored
from companion.core.values.setting_list import SETTINGS
from companion.tui.app import TallycordApp
from companion.tui.design.screen import DesignScreen
from companion.tui.routes import ToDraft
from companion.tui.start.screen import StartScreen
from tests.tui.design.by_keys import fill_in, put_cursor, to_page
from tests.tui.screens import golden, screen_text, until, until_seen

CUFF = Draft(
    name="Inner Farne cuff",
    body="165",
    ease="20",
    tolerance="5",
    cord="twisted silk",
    cord_diameter="0.45",
    layers="2",
    beads=(
        BeadDraft("P", name="Pink glass", length="8", hole="1.2", colour="pink"),
        BeadDraft("S", name="Silver spacer", length="3", diameter="5", hole="1.2", colour="silver"),
    ),
    pattern="PPPPS",
)


@pytest.fixture
def own(workshop, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    return workshop


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24), (120, 40)])
async def test_the_same_piece_made_otherwise_can_be_compared(own, dimensions) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Inner Farne cuff")
        await pilot.press("c")
        text = await until_seen(pilot, "The same piece made in other ways")
        golden("design-compare-{}x{}".format(*dimensions), text)
        if dimensions[1] > 30:
            for words in ("Knots  ", "Cord  ", "Closure  ", "* doubled"):
                assert words in text
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, DesignScreen))
        assert own.drafts.kept() == CUFF


async def test_what_can_not_be_planned_yet_has_nothing_to_compare(own) -> None:
    own.drafts.keep(replace(CUFF, pattern=""))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Inner Farne cuff")
        await pilot.press("c")
        await until_seen(pilot, "There is nothing to compare yet.")
        assert isinstance(app.screen, DesignScreen)


async def test_a_half_made_design_survives_and_is_offered_again(own) -> None:
    app = TallycordApp(own)
    async with app.run_test(size=(80, 24)) as pilot:
        await to_page(pilot)
        await fill_in(pilot, "name", ("Sula", None, None))
        assert own.drafts.kept().name == "Sula"  # on disk before the page is left
    again = TallycordApp(own)
    async with again.run_test(size=(80, 24)) as pilot:
        page = await to_page(pilot)
        await until_seen(pilot, "This is the design you left.")
        assert page.draft.name == "Sula"
        await pilot.press("n")
        await until_seen(pilot, "name not yet")
        await pilot.press("u")
        await until_seen(pilot, "name Sula")


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 40)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_page_as_it_reads(own, size) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    name = f"{size[0]}x{size[1]}"
    async with app.run_test(size=size) as pilot:
        await until_seen(pilot, "30 steps")  # all of what it comes to; the picture has what room is left
        golden(f"design-{name}", await until_seen(pilot, "It will be"))
        page = app.screen
        page.query_one("Rows").begin_with(("pattern", 0))
        await pilot.press("enter")
        await until(pilot, lambda: app.screen is not page and app.screen.focused is not None)
        await pilot.press("end", "P")
        await until(pilot, lambda: any("PPPPSP" in row.text for row in page.query_one("Rows").rows))
        await until_seen(pilot, "A design of your own")  # the page above the form is drawn as well
        golden(f"design-pattern-{name}", await until_seen(pilot, "PPPPSP"))


async def test_every_key_is_judged_and_drawn(own) -> None:
    own.drafts.keep(replace(CUFF, pattern=""))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(pilot, "Type the pattern")
        page = app.screen
        page.query_one("Rows").begin_with(("pattern", 0))
        await pilot.press("enter")
        await until(pilot, lambda: app.screen is not page and app.screen.focused is not None)
        await pilot.press("P")
        await until_seen(pilot, "19 Pink glass; ")
        await until(pilot, lambda: "▀" in screen_text(app))
        await pilot.press("Q")
        await until_seen(pilot, "No bead has the letter 'Q'. There is P, S.")
        assert page.judged.plan is None
        await pilot.press("escape", "escape")  # nothing is taken
        await until_seen(pilot, "Type the pattern")
        assert page.draft.pattern == ""


async def test_what_is_wrong_is_not_saved(own) -> None:
    own.drafts.keep(replace(CUFF, cord_diameter="thin"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "A design of your own")
        await pilot.press("ctrl+s")
        await until_seen(pilot, "It can't be saved yet.")
        assert "‘thin’" in screen_text(app)
        assert not own.drafts.folder.exists()


async def test_saved_and_begun(own) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It will be")
        await pilot.press("b")
        await until(pilot, lambda: isinstance(app.screen, StartScreen))
        await until_seen(pilot, "Inner Farne cuff")
    assert own.drafts.place_for(CUFF).name == "inner-farne-cuff-2.yaml"


async def test_a_copy_of_a_shipped_design(own, skerry) -> None:
    before = skerry.read_bytes()
    app = TallycordApp(own)
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Esc quit")
        rows = app.screen.query_one("Rows")
        rows.begin_with(next(row.value for row in rows.rows if "skerry-bracelet" in row.text))
        await pilot.press("e")
        await until_seen(pilot, "A copy of skerry-bracelet: the design itself stays as it is.")
        await fill_in(pilot, "length", (None, "7 in", None, None, None))
        await pilot.press("ctrl+s")
        await until_seen(pilot, "Saved among your designs")
    assert skerry.read_bytes() == before
    (place,) = own.drafts.folder.glob("*.yaml")
    assert own.plan(place).plan.size.body_mm == pytest.approx(177.8)


@pytest.mark.parametrize(("key", "files"), [("1", ["sula.yaml"]), ("2", ["sula-2.yaml", "sula.yaml"]), ("escape", [])])
async def test_her_own_design_is_changed_or_another_made_of_it(own, skerry: Path, key: str, files: list[str]) -> None:
    place = own.drafts.folder / "sula.yaml"
    place.parent.mkdir(parents=True)
    before = skerry.read_text(encoding="utf-8").replace("Skerry bracelet", "Sula") + "# for Anna\n"
    place.write_text(before, encoding="utf-8")
    app = TallycordApp(own, first=ToDraft(place))
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "This is sula. Saving asks whether over it or as a design of its own.")
        page = app.screen
        await fill_in(pilot, "length", (None, "7 in", None, None, None))
        await pilot.press("ctrl+s")
        await until_seen(pilot, "over sula.yaml, which you opened; its comments are lost")
        await pilot.press(key)
        if key == "escape":
            await until(pilot, lambda: app.screen is page)
            assert own.drafts.kept() == page.draft
        else:
            text = await until_seen(pilot, f"Saved among your designs as {files[0]}.")
            assert ("The comments stay" in " ".join(text.split())) == (key == "2")
    assert sorted(path.name for path in place.parent.iterdir()) == (files or ["sula.yaml"])
    assert (place.read_text(encoding="utf-8") == before) == (key != "1")
    if files:
        assert own.plan(place.parent / files[0]).plan.size.body_mm == pytest.approx(177.8)


async def test_one_with_two_different_ends_is_told(own, skerry: Path, tmp_path: Path) -> None:
    text = skerry.read_text(encoding="utf-8").replace("start: {closure: bead tip", "start: {closure: crimp", 1)
    (tmp_path / "two-ends.yaml").write_text(text, encoding="utf-8")
    app = TallycordApp(own, first=ToDraft(tmp_path / "two-ends.yaml"))
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "has two different ends, or strands that are worked in different ways.")


async def test_a_disk_that_is_full_is_said_and_nothing_is_lost(own, monkeypatch) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())

    def full(*_: object, **__: object) -> None:
        raise NotStored("The disk is full: nothing was saved.")

    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It will be")
        monkeypatch.setattr("companion.workshop.drafts.write_new", full)
        await pilot.press("ctrl+s")
        await until_seen(pilot, "The disk is full")
        assert app.screen.draft == CUFF
    assert own.drafts.kept() == CUFF


async def test_hostile_texts_are_only_text(own) -> None:
    bad = "[@click=app.quit]x[/]\x1b[2J\u202e" + "y" * 300
    beads = (replace(CUFF.beads[0], name=bad, colour=bad), CUFF.beads[1])
    own.drafts.keep(replace(CUFF, name=bad, note=bad, cord=bad, finding=bad, beads=beads))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        text = await until_seen(pilot, "[@click=app.quit]x[/]")
        assert "\x1b" not in text
        assert "\u202e" not in text


async def test_without_colours_the_piece_is_drawn_in_letters(own, monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    own.drafts.keep(CUFF)
    app = TallycordApp(own)
    async with app.run_test(size=(120, 40)) as pilot:
        await to_page(pilot, again=True)
        text = await until_seen(pilot, "██P██•")
        assert "•S█•" in text


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24)])
async def test_whence_the_target_is_said_while_the_length_is_typed(own, dimensions) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "wrist 165 mm + 20 mm, within 5 mm; beads")
        put_cursor(app.screen, "length")
        await pilot.press("enter")
        await until_seen(
            pilot, "The target is 209 mm: wrist 165 mm, ease 20 mm, and 24.5 mm because the beads lie outside"
        )


async def test_before_there_are_beads_it_is_said_that_they_add_to_a_wrist(own) -> None:
    own.drafts.keep(Draft(body="165"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "wrist 165 mm")
        put_cursor(app.screen, "length")
        await pilot.press("enter")
        await until_seen(pilot, "Beads lie outside the wrist: what they take is added once they are described.")


async def test_what_is_usual_is_said_in_inches_where_inches_are_chosen(own) -> None:
    own.set_setting(next(one for one in SETTINGS if one.field == "unit"), "in")
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "not yet")
        assert app.screen.draft == Draft(unit="in")
        put_cursor(app.screen, "length")
        await pilot.press("enter")
        await until_seen(pilot, "how near; empty: 1/8 in")
        app.screen.entry("body").value = "6 1/2"
        await until_seen(pilot, "wrist 6 1/2 in, within 1/8 in")


@pytest.mark.parametrize("dimensions", [(60, 18), (80, 24)])
@pytest.mark.parametrize("pattern", ["PPPPS", ""])
async def test_a_hole_that_is_too_tight_is_said_while_it_is_typed(own, dimensions, pattern) -> None:
    own.drafts.keep(replace(CUFF, pattern=pattern))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=dimensions) as pilot:
        await until_seen(pilot, "Inner Farne cuff")
        put_cursor(app.screen, "beads")
        await pilot.press("enter")
        await until_seen(pilot, "Bead P")
        app.screen.entry("hole").value = "0.5"
        assert "△" in await until_seen(pilot, "hole")
        await until_seen(pilot, "The hole of Pink glass is 0.5 mm")


async def test_one_cursor_alone_stands_on_the_page_while_a_bead_is_added(own) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 40)) as pilot:
        await until_seen(pilot, "Inner Farne cuff")
        put_cursor(app.screen, "+ one more kind")
        await pilot.press("enter")
        await until_seen(pilot, "One more bead")
        await pilot.press(*"Ox", "enter", "9")
        text = await until_seen(pilot, "O Ox 9 mm")
        marked = [line.strip() for line in text.splitlines() if line.strip().startswith("›")]
        assert [line.split()[1] for line in marked] == ["O", "length"]
