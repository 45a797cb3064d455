"""Hostile texts in every field of the design page: they are shown as text, and nothing they say is done."""

from __future__ import annotations

from itertools import cycle, islice

import pytest
from msgspec.structs import replace
from textual import events

from companion.core.draft.draft import StrandDraft
from companion.tui.app import TallycordApp
from companion.tui.design.parts import part_form
from companion.tui.design.screen import DesignScreen
from companion.tui.routes import ToDraft
from tests.examples import LONG
from tests.tui.design.test_screen import CUFF, own
from tests.tui.screens import screen_text, until, until_seen

__all__ = ["own"]
TEXTS = {
    "markup": "[@click=app.quit]x[/] [bold]y[/bold] [[z",
    "escapes": "\x1b[2J\x1b]0;x\x07a\x00b\x7f\x9bc",
    "right to left": "\u202egnp.exe\u2066 שלום مرحبا",
    "emoji": "👩‍👩‍👧🏽🫧e\u0301\u200d\ufe0f",
    "long": "10000" * 2_000,
    "yaml": "}: {a: &b *b !!x, # | > \"' %",
}
PARTS = ("what", "size", "cord", "knots", "beads", "pattern", "ends", "reach")
TWO = replace(CUFF, strand="upper", others=(StrandDraft("lower", "P", times="9"),))


# One text after the other from field to field, so that each is typed; in the long run each of them in every field.
@pytest.mark.parametrize("first", range(len(TEXTS) if LONG else 2))
async def test_typed_into_every_field(own, first) -> None:
    own.drafts.keep(TWO)
    texts = islice(cycle(TEXTS.values()), first, None)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It will be")
        page = app.screen
        for part in PARTS:
            page.query_one("Rows").begin_with((part, 0))
            await pilot.press("enter")
            await until(pilot, lambda: app.screen is not page and app.screen.focused is not None)
            form = app.screen
            for field in part_form(page.draft, part, (), 0).fields:
                line = form.query_one(f"#{field.key}")
                if not field.choices:
                    line.value = next(texts)
                line.focus()
            await pilot.press("enter")
            await until(pilot, lambda: app.screen is page)
        for key in ("1", "P", "c", "ctrl+s"):
            await pilot.press(key)
        await until_seen(pilot, "It can't be saved yet.")
        shown = screen_text(app)
        assert not {"\x1b", "\x00", "\x9b", "\u202e", "\u2066"} & set(shown)
        assert app.is_running
        assert isinstance(app.screen, DesignScreen)
        assert app.screen.draft == page.draft
    again = TallycordApp(own, first=ToDraft())
    async with again.run_test(size=(60, 18)) as pilot:
        await until_seen(pilot, "A design of your own")
        assert again.screen.draft.note == page.draft.note[:400]
    assert not own.drafts.folder.exists()


async def test_pasted_into_a_field(own) -> None:
    """More than a line holds is not taken at all; what is, stays one line."""
    own.drafts.keep(CUFF)
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "It will be")
        page = app.screen
        await pilot.press("enter")
        await until(pilot, lambda: app.screen is not page and app.screen.focused is not None)
        line = app.screen.focused
        app.screen.post_message(events.Paste("x" * 10_000))
        line.post_message(events.Paste("\u202e two\nlines\x1b[2J"))
        await until(pilot, lambda: "two" in line.value)
        assert "x" * 100 not in line.value
        assert "\x1b" not in screen_text(app)


async def test_in_a_name_alone_it_can_be_saved_and_comes_back_as_text(own) -> None:
    own.drafts.keep(replace(CUFF, name=TEXTS["markup"], note=TEXTS["yaml"]))
    app = TallycordApp(own, first=ToDraft())
    async with app.run_test(size=(80, 24)) as pilot:
        await until_seen(pilot, "[@click=app.quit]x[/]")
        await pilot.press("ctrl+s")
        await until_seen(pilot, "Saved among your designs")
    (place,) = own.drafts.folder.glob("*.yaml")
    copy = own.drafts.copy_of(place)
    assert (copy.name, copy.note) == (TEXTS["markup"], TEXTS["yaml"])
