"""The design page by keys alone: to it, and its parts filled in line by line."""

from __future__ import annotations

from companion.tui.design.screen import DesignScreen
from tests.tui.screens import until, until_seen

Answers = tuple[str | None, ...]


async def to_page(pilot, again: bool = False) -> DesignScreen:
    """From the bench to the design page; `again`: a half-made design waits there."""
    await until_seen(pilot, "Esc quit")
    await pilot.press("d")
    await until(pilot, lambda: isinstance(pilot.app.screen, DesignScreen))
    if not again:
        await until_seen(pilot, "A design of your own")
    return pilot.app.screen


def put_cursor(page: DesignScreen, label: str) -> None:
    """Put the cursor on the part whose line begins so."""
    rows = page.query_one("Rows")
    rows.begin_with(next(row.value for row in rows.rows if row.text.strip().startswith(label)))


async def fill_in(pilot, label: str, answers: Answers) -> None:
    """Put the cursor on a part, and fill in its lines; None leaves one as it is, a word of a choice is looked up."""
    app, page = pilot.app, pilot.app.screen
    put_cursor(page, label)
    await pilot.press("enter")
    await until(pilot, lambda: app.screen is not page and app.screen.focused is not None)
    form = app.screen
    for answer in answers:
        line = form.focused
        if answer is not None and hasattr(line, "choices"):
            while line.value != answer:
                await pilot.press("right")
        elif answer is not None:
            line.value = answer
        await pilot.press("enter")
        await until(pilot, lambda line=line: app.screen is page or form.focused is not line)
    await until(pilot, lambda: app.screen is page)
