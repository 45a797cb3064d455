"""Reading a screen as text, waiting for a condition, and comparing with a golden file."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from time import monotonic

from textual.app import App
from textual.pilot import Pilot

from companion.tui.widgets.later_drawing import LaterDrawing
from tests.tui.toolkit import looks

GOLDEN = Path(__file__).parent / "golden"
GIVE_UP_SECONDS = 30.0
SETTLED = 5  # a screen that is the same after so many pauses is drawn: they are longer than a frame


def screen_text(app: App) -> str:
    """What a person sees, row by row, dialogs over the screen below them."""
    width, height = app.size
    lines = ["".join(segment.text for segment in strip) for strip in looks.strips(app)]
    return "\n".join(line[:width].rstrip() for line in lines[:height])


def drawings(app: App) -> list[LaterDrawing]:
    """Those that are made in a thread, as far as their place can be seen."""
    return [one for one in app.screen._compositor.visible_widgets if isinstance(one, LaterDrawing) and one.region]


def is_at_work(app: App) -> bool:
    """Whether the screen has something to lay out or to paint, or anything on it has messages to read or waits for a
    frame."""
    screen = app.screen
    due = screen._layout_required, screen._repaint_required, screen._dirty_widgets, screen._callbacks
    undrawn = any(not one.is_drawn for one in drawings(app))
    return any(due) or undrawn or any(node.message_queue_size for node in (app, screen, *screen.walk_children()))


async def until(pilot: Pilot, condition: Callable[[], bool]) -> None:
    """Let the app work until the condition holds; fails with the screen where it never does."""
    end = monotonic() + GIVE_UP_SECONDS
    looks.paint(pilot.app)
    while not condition():
        assert monotonic() < end, "never came true; the screen is:\n" + screen_text(pilot.app)
        await pilot.pause()
        looks.paint(pilot.app)


async def until_seen(pilot: Pilot, words: str) -> str:
    """Wait until those words are on the screen, wherever its lines break, and all else is drawn; the whole screen."""
    await until(pilot, lambda: words in " ".join(screen_text(pilot.app).split()))
    await until(pilot, lambda: all(one.is_drawn for one in drawings(pilot.app)))
    seen: list[str] = []
    while is_at_work(pilot.app) or seen[-SETTLED:] != [screen_text(pilot.app)] * SETTLED:
        seen.append(screen_text(pilot.app))
        await pilot.pause()
    return seen[-1]


async def until_drawn(pilot: Pilot, words: str) -> str:
    """The same, once a piece is drawn on it: more pixels beside one another than a block digit has."""
    await until(pilot, lambda: "▀▀▀▀" in screen_text(pilot.app))
    return await until_seen(pilot, words)


async def gone(pilot: Pilot, words: str) -> str:
    """Wait until those words are on the screen no longer; the whole screen."""
    await until(pilot, lambda: words not in " ".join(screen_text(pilot.app).split()))
    return screen_text(pilot.app)


def golden(name: str, text: str) -> None:
    """Compare with tests/tui/golden/NAME.txt; UPDATE_GOLDEN=1 writes it anew."""
    path = GOLDEN / f"{name}.txt"
    if os.environ.get("UPDATE_GOLDEN"):
        path.write_text(text + "\n", encoding="utf-8")
    assert path.read_text(encoding="utf-8") == text + "\n"


async def until_golden(pilot: Pilot, name: str) -> str:
    """Wait until the screen is that golden text: for what is painted last, and has no word of its own to wait for."""
    wanted = (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")
    end = monotonic() + GIVE_UP_SECONDS
    while screen_text(pilot.app) + "\n" != wanted and monotonic() < end and "UPDATE_GOLDEN" not in os.environ:
        await pilot.pause()
        looks.paint(pilot.app)
    golden(name, screen_text(pilot.app))
    return screen_text(pilot.app)


async def until_bench_drawn(pilot: Pilot, words: str = "Bench") -> str:
    """The bench, once the beads of all its rows and the chosen one stand there."""

    def drawn() -> bool:
        bench = pilot.app.screen
        seen = (drawing for drawing in bench.query("PieceDrawing") if drawing.region)
        return bench.sketching.stands and bench.sketching.rests and all(drawing.is_drawn for drawing in seen)

    await until(pilot, drawn)
    return await until_seen(pilot, words)
