"""Every command and every page of the app on one piece: nothing may fail but in words."""

from __future__ import annotations

import asyncio
import contextlib
import io
import os
from collections.abc import Iterator
from pathlib import Path

from companion.cli.main import run
from companion.tui.app import TallycordApp
from companion.workshop import open_at
from tests.harness.fuzz import unclean
from tests.tui.toolkit import looks

READING = (
    ("status", "{}"), ("status", "{}", "--json"), ("measure", "{}"), ("remedy", "{}"), ("journal", "{}"),
    ("readings", "{}"), ("readings", "{}", "--json"), ("pieces",), ("cords",),
)  # fmt: skip
CHANGING = (
    ("next", "{}"), ("measure", "{}", "40 mm", "--free", "300 mm"), ("remedy", "{}", "1"), ("recount", "{}"),
    ("note", "{}", "so"), ("join", "{}", "10 cm"), ("jump", "{}", "1"), ("measure", "{}", "--withdraw"),
    ("readings", "{}", "--out", "1"), ("readings", "{}", "--in", "1"), ("recount", "{}", "--beads", "1"),
    ("back", "{}"), ("finish", "{}", "100 mm", "--left", "50 mm", "--learn"), ("back", "{}"), ("next", "{}"),
    ("abandon", "{}"), ("status", "{}"), ("journal", "{}"),
)  # fmt: skip
KEYS = (
    "k", "escape", "v", "1", "escape", "s", "escape", "w", "escape", "m", "4", "0", "escape", "c", "9", "escape", "r",
    "escape", "o", "5", "escape", "space", "u", "escape",
)  # fmt: skip


def commands(home: Path, name: str, lines: tuple[tuple[str, ...], ...]) -> None:
    """These commands on that piece. Raises AssertionError, or whatever was not caught on the way."""
    with _at(home):
        for line in lines:
            out, err = io.StringIO(), io.StringIO()
            with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
                code = run([word.format(name) for word in line])
            said = out.getvalue() + err.getvalue()
            assert code in (0, 1, 2), (line, code)
            assert said.strip(), line
            assert not unclean(said), (line, unclean(said))
            assert "nan" not in said.lower().split(), (line, said)


@contextlib.contextmanager
def _at(home: Path) -> Iterator[None]:
    before = {name: os.environ.get(name) for name in ("TALLYCORD_HOME", "TALLYCORD_TRACEBACK")}
    os.environ |= {"TALLYCORD_HOME": str(home), "TALLYCORD_TRACEBACK": "1"}
    try:
        yield
    finally:
        for name, value in before.items():
            os.environ.pop(name) if value is None else os.environ.update({name: value})


def pages(home: Path, size: tuple[int, int] = (80, 24)) -> None:
    """Every piece that is on the bench, opened in the app, and each page of it looked at."""

    async def look() -> None:
        workshop = open_at(home)
        under_way = [row.name for row in workshop.pieces() if row.state == "under way"]
        try:
            app = TallycordApp(workshop)
            async with app.run_test(size=size) as pilot:
                for number in range(len(under_way)):
                    await pilot.pause()
                    await pilot.press(*["down"] * number, "enter")
                    await pilot.press("enter")
                    for key in KEYS:
                        await pilot.press(key)
                        rows = looks.strips(app)
                        shown = "".join(part.text for row in rows for part in row if part.control is None)
                        assert not unclean(shown), (key, unclean(shown))
        finally:
            workshop.close()

    asyncio.run(look())
