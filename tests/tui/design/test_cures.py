"""What doesn't come out is said on the page with its ways, numbered: a digit takes one, u gives it back."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.tui.app import TallycordApp
from companion.tui.routes import ToDraft
from tests.tui.design.by_keys import fill_in
from tests.tui.design.test_screen import CUFF, own
from tests.tui.screens import golden, screen_text, until, until_seen

__all__ = ["own"]
SHORT = replace(CUFF, body="172", tolerance="")


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 40)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_a_digit_takes_one_and_undo_gives_it_back(own, size) -> None:
    own.drafts.keep(SHORT)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=size) as pilot:
        text = await until_seen(pilot, "11.5 mm too short: 1 a clasp 11.5 mm longer (216 mm) · 2 four repeats and 1")
        golden("design-check-{}x{}".format(*size), text)
        await pilot.press("1")
        await until_seen(pilot, "Taken: a clasp 11.5 mm longer (216 mm). u undoes it.")
        assert "too short" not in screen_text(app)
        assert own.drafts.kept() == app.screen.draft != SHORT  # on disk as it is shown
        await pilot.press("u")
        await until_seen(pilot, "11.5 mm too short")
        assert own.drafts.kept() == app.screen.draft == SHORT


async def test_a_digit_without_a_way_does_nothing(own) -> None:
    own.drafts.keep(replace(CUFF, tolerance="15"))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It will be")
        await pilot.press("1", "5")
        assert own.drafts.kept() == app.screen.draft == replace(CUFF, tolerance="15")


async def test_each_bead_that_is_short_is_said(own) -> None:
    beads = (replace(CUFF.beads[0], in_hand="10"), replace(CUFF.beads[1], in_hand="40"))
    own.drafts.keep(replace(CUFF, beads=beads))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(120, 40)) as pilot:
        text = await until_seen(pilot, "It takes 16 Pink glass and you have 10: 6 short.")
        assert "Silver spacers and you have" not in text


async def test_a_count_that_is_none_is_asked_for(own) -> None:
    own.drafts.keep(replace(CUFF, beads=(replace(CUFF.beads[0], in_hand="a few"), CUFF.beads[1])))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "How many of bead P do you have? Type a whole number, or nothing.")


async def test_what_a_cord_in_hand_would_make(own) -> None:
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(pilot, "It will be")
        page = app.screen
        page.query_one("Rows").begin_with(("reach", 0))
        await pilot.press("enter")
        await until(pilot, lambda: app.screen is not page and app.screen.focused is not None)
        await pilot.press(*"2m")
        await until_seen(pilot, "The longest it is enough for: 7 repeats")
        await pilot.press("enter")
        text = await until_seen(pilot, "a cord of 2m makes 7 repeats, 339 mm long")
        assert "It will be 205 mm" in text  # the design itself stays
        await fill_in(pilot, "a cord of", ("10 mm",))
        await until_seen(pilot, "10 mm is too short for any of it")
        await fill_in(pilot, "a cord of", ("[b]long[/b]",))
        await until_seen(pilot, "a cord of [b]long[/b]")
