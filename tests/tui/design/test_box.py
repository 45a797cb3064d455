"""The bead box: a bead that was typed once is offered for the next design."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.draft.draft import BeadDraft, Draft
from companion.tui.app import TallycordApp
from companion.tui.design.box import BoxDialog
from companion.tui.design.form import PartDialog
from companion.tui.routes import ToDraft
from tests.tui.design.by_keys import fill_in, put_cursor, to_page
from tests.tui.design.test_screen import CUFF, own
from tests.tui.screens import golden, screen_text, until, until_seen

__all__ = ["own"]


@pytest.mark.parametrize("size", [(60, 18), (80, 24)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_typed_once_and_offered_for_the_next(own, size) -> None:
    app = TallycordApp(own)
    async with app.run_test(size=size) as pilot:
        await to_page(pilot)
        await fill_in(pilot, "beads", ("Pink glass", "8", "", "1.2", "pink", None, "40", ""))
        await fill_in(pilot, "+ one more kind", ("Silver daisy", "2", "5", "1.2", "silver", "daisy", "", ""))
        assert [bead.name for bead in own.drafts.beads()] == ["Silver daisy", "Pink glass"]
        await pilot.press("n")  # the next design
        page = app.screen
        put_cursor(page, "beads")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, BoxDialog))
        golden("design-box-{}x{}".format(*size), await until_seen(pilot, "Pink glass 8 mm, round, pink, you have 40"))
        await pilot.press("3")
        await until(pilot, lambda: app.screen is page)
        pink = BeadDraft("P", "", "Pink glass", "8 mm", "", "1.2 mm", "pink", "round", "40")
        assert page.draft.beads == own.drafts.kept().beads == (pink,)
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, BoxDialog))
        assert "Pink glass" not in screen_text(app)  # it is in this design already
        await pilot.press("1")  # a new one
        await until(pilot, lambda: isinstance(app.screen, PartDialog))


async def test_leaving_the_box_leads_back_to_the_page(own) -> None:
    own.drafts.keep(CUFF)
    own.drafts.keep(Draft())
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Give it a name.")
        page = app.screen
        put_cursor(page, "beads")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, BoxDialog))
        await pilot.press("escape")
        await until(pilot, lambda: app.screen is page)
        assert page.draft == Draft()


async def test_a_box_of_hostile_names_is_only_text(own) -> None:
    bad = "[@click=app.quit]x[/]\x1b[2J\u202egnp🫧"
    own.drafts.keep(replace(CUFF, beads=(BeadDraft("P", name=bad, length="8", colour=bad, in_hand="[b]7[/b]"),)))
    own.drafts.keep(Draft())
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "Give it a name.")
        put_cursor(app.screen, "beads")
        await pilot.press("enter")
        text = await until_seen(pilot, "[@click=app.quit]x[/]")
        assert "\x1b" not in text
        assert "\u202e" not in text
        await pilot.press("2")
        await until_seen(pilot, "+ one more kind")
        assert app.is_running


@pytest.mark.parametrize("size", [(60, 18), (80, 24)])
async def test_a_bead_is_taken_out_of_the_box_once_that_was_asked(own, size) -> None:
    own.drafts.keep(CUFF)
    own.drafts.keep(Draft())
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=size) as pilot:
        await until_seen(pilot, "Give it a name.")
        put_cursor(app.screen, "beads")
        await pilot.press("enter")
        await until_seen(pilot, "x take out")
        await pilot.press("x")
        await until_seen(pilot, "Put the cursor on a bead first.")
        await pilot.press("down", "x")
        await until_seen(pilot, "△ x again takes Silver spacer 3 mm out of your bead box.")
        assert len(own.drafts.beads()) == 2
        await pilot.press("x")
        await until_seen(pilot, "Silver spacer 3 mm is out of your bead box. Describing it again puts it back.")
        assert [bead.name for bead in own.drafts.beads()] == ["Pink glass"]
        await pilot.press("down", "x", "x")  # the last one: nothing is left to choose from
        await until(pilot, lambda: not isinstance(app.screen, BoxDialog))
        assert own.drafts.beads() == ()
