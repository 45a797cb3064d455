"""The cursor on the picture: along the strand, and what is under it changed where it lies."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.draft.draft import StrandDraft
from companion.tui.app import TallycordApp
from companion.tui.design.picture import PictureDialog
from companion.tui.design.screen import DesignScreen
from companion.tui.routes import ToDraft
from tests.tui.design.test_screen import CUFF, own
from tests.tui.screens import golden, screen_text, until, until_seen

__all__ = ["own"]
SIZES = [(60, 18), (80, 24), (120, 40)]


async def on_the_picture(pilot) -> DesignScreen:
    await until_seen(pilot, "It will be")
    page = pilot.app.screen
    await pilot.press("P")
    await until(pilot, lambda: isinstance(pilot.app.screen, PictureDialog))
    await until_seen(pilot, "1 of ")
    return page


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_a_bead_is_put_in_another_kind_moved_and_taken_out(own, size) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=size) as pilot:
        page = await on_the_picture(pilot)
        await pilot.press("right", "i")
        await until_seen(pilot, "Changed in every repeat. u undoes it.")
        assert page.draft.pattern == " [PP P P P S ]"
        await pilot.press("k")
        await until_seen(pilot, "S, Silver spacer. A change here changes every repeat.")
        assert page.draft.pattern == " [PS P P P S ]"
        golden("design-picture-{}x{}".format(*size), await until_seen(pilot, "Changed in every repeat"))
        await pilot.press("minus", "k")
        assert page.draft.pattern == " [PS= P P P S ]"
        await pilot.press("less_than_sign")
        assert page.draft.pattern == " [P=S P P P S ]"
        await pilot.press("x")
        assert page.draft.pattern == " [PS P P P S ]"
        assert own.drafts.kept() == page.draft  # each of them on disk as it shows
        await pilot.press(*"uuuuuu")
        await until_seen(pilot, "Undone.")
        assert page.draft == CUFF
        await pilot.press("U")
        assert page.draft.pattern == " [PP P P P S ]"
        await pilot.press("escape")
        await until(pilot, lambda: app.screen is page)


async def test_what_a_change_does_to_a_mirror_is_said(own) -> None:
    own.drafts.keep(replace(CUFF, pattern="<[P ]S |P>", knots="where I type a space", times="1"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        page = await on_the_picture(pilot)
        await until_seen(pilot, "A change here changes every repeat, on both sides of the mirror.")
        while "S, Silver spacer" not in screen_text(app):
            await pilot.press("right")
        await until_seen(pilot, "A change here changes both sides of the mirror.")
        await pilot.press("k")
        await until_seen(pilot, "Changed on both sides of the mirror.")
        assert page.draft.pattern == "<[P ]P |P>"
        await pilot.press("end", "greater_than_sign")
        await until_seen(pilot, "It goes no further")


async def test_the_strand_is_never_emptied(own) -> None:
    own.drafts.keep(replace(CUFF, pattern="P", knots="where I type a space", times="1", tolerance="200"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        page = await on_the_picture(pilot)
        await pilot.press("x")
        await until_seen(pilot, "Nothing would be left to string.")
        assert page.draft.pattern == "P"


async def test_a_run_is_changed_as_a_whole(own) -> None:
    own.drafts.keep(replace(CUFF, pattern="{20 P, knot every 4}"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        page = await on_the_picture(pilot)
        await until_seen(pilot, "A change here changes the whole run.")
        for key, pattern in (
            ("i", "{21 P, knot every 4}"),
            ("x", "{20 P, knot every 4}"),
            ("k", "{20 S, knot every 4}"),
        ):
            await pilot.press(key)
            await until(pilot, lambda pattern=pattern: page.draft.pattern == pattern)
            await until_seen(pilot, "Changed in the whole run.")
        for key in ("minus", "greater_than_sign"):
            await pilot.press(key)
            await until_seen(pilot, "Beads of a run are all alike")
        assert page.draft.pattern == "{20 S, knot every 4}"


async def test_a_place_of_a_run_stands_apart_once_asked_twice(own) -> None:
    own.drafts.keep(replace(CUFF, pattern="{fit P, knot every 4}"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        page = await on_the_picture(pilot)
        await pilot.press("i")
        await until_seen(pilot, "There are as many as fit.")
        length_mm = page.plan.finished_length_mm
        await pilot.press("A")
        await until_seen(pilot, "Press A again to do that.")
        assert page.draft.pattern == "{fit P, knot every 4}"
        await pilot.press("right", "A")
        await until_seen(pilot, "Press A again to do that.")  # it was asked at another place
        await pilot.press("A")
        await until_seen(pilot, "It stands apart now")
        assert page.draft.pattern == "PPPP {fit P, knot every 4}"
        assert page.plan.finished_length_mm == length_mm
        await pilot.press("k")
        await until_seen(pilot, "Changed here alone.")
        assert page.draft.pattern == "PSPP {fit P, knot every 4}"
        await pilot.press("A")
        await until_seen(pilot, "It is in no repeat and in no run")
        await pilot.press("u", "u")
        await until(pilot, lambda: page.draft.pattern == "{fit P, knot every 4}")


async def test_one_repeat_of_a_fit_stands_apart_and_the_rest_still_fits(own) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        page = await on_the_picture(pilot)
        await pilot.press("end", "A", "A")
        await until_seen(pilot, "It stands apart now")
        assert page.draft.pattern == " [P P P P S ]P P P P S "
        await pilot.press("left", "k")
        await until_seen(pilot, "Changed here alone.")
        assert page.draft.pattern == " [P P P P S ]P P P P P "


async def test_from_strand_to_strand(own) -> None:
    own.drafts.keep(replace(CUFF, others=(StrandDraft("lower", "[S ]x20", "where I type a space", "1"),)))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        page = await on_the_picture(pilot)
        await pilot.press("tab")
        await until_seen(pilot, "1 of 40: S, Silver spacer.")
        await pilot.press("k")
        await until_seen(pilot, "Changed in every repeat")
        assert page.draft.others[0].pattern == "[P ]x20"
        assert page.draft.pattern == CUFF.pattern


async def test_one_worked_from_the_middle_lies_whole(own, patterns) -> None:
    app = TallycordApp(own, first=ToDraft(patterns / "wolf-rock-necklace.yaml"))
    async with app.run_test(size=(80, 24)) as pilot:
        page = await on_the_picture(pilot)
        elements = sum(len(side.elements) for side in page.plan.strands)
        await until_seen(pilot, f"1 of {elements}: a single knot.")
        await pilot.press("end")
        await until_seen(pilot, f"{elements} of {elements}: a single knot.")


async def test_without_a_plan_there_is_no_picture(own) -> None:
    own.drafts.keep(replace(CUFF, pattern=""))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Inner Farne cuff")
        await pilot.press("P")
        await until_seen(pilot, "There is no picture yet.")


async def test_without_colours_the_cursor_is_a_bracket(own, monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await on_the_picture(pilot)
        await pilot.press("right")
        text = await until_seen(pilot, "2 of 41: P, Pink glass.")
        assert "•[ P ]•██P██•" in text
        assert "▲" in text
