"""Every page as a picture (SVG), in every size and every set of colours, to be looked at.

    .venv/bin/python -m tests.pictures FOLDER [--sizes 60x18 80x24 …] [--looks lamp 16 …] [--visits making …]

FOLDER/LOOK-SIZE-PAGE.svg. With `rsvg-convert FILE.svg -o FILE.png` each becomes a picture for any viewer.
"""

from __future__ import annotations

import argparse
import asyncio
import os
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from rich.color import ColorSystem
from rich.console import COLOR_SYSTEMS
from textual._context import visible_screen_stack
from textual.app import App
from textual.strip import Strip

from companion.tui.app import TallycordApp
from companion.tui.contrast import SIXTEEN
from companion.tui.routes import ToBench
from companion.workshop import open_at
from tests.pictures.terminal_svg import terminal_svg
from tests.pictures.visits import VISITS, Visit
from tests.tui.conftest import Clock

SIZES = {"60x18": (60, 18), "80x24": (80, 24), "120x40": (120, 40), "200x60": (200, 60)}
MILLIONS = {"TERM": "xterm-256color", "COLORTERM": "truecolor"}
LOOKS: dict[str, dict[str, str]] = {
    "lamp": MILLIONS,
    "day": {**MILLIONS, "TALLYCORD_COLOURS": "day"},
    "lamp-contrast": {**MILLIONS, "TALLYCORD_COLOURS": "lamp-contrast"},
    "day-contrast": {**MILLIONS, "TALLYCORD_COLOURS": "day-contrast"},
    "no-colour": {**MILLIONS, "NO_COLOR": "1"},
    "16": {"TERM": "xterm"},
}
SETTINGS = ("TERM", "COLORTERM", "NO_COLOR", "TALLYCORD_COLOURS", "TALLYCORD_HOME", "HOME")


def drawn_strips(app: App) -> list[Strip]:
    """The screen as it goes to the terminal, dialogs over the page below them."""
    visible_screen_stack.set(app._background_screens)
    return app.screen._compositor.render_strips()


def picture_of(app: App[object]) -> str:
    """The screen that stands now."""
    name = app.console.color_system or "truecolor"
    sixteen = SIXTEEN[0] if name == "standard" else None
    return terminal_svg(drawn_strips(app), app.size.width, ColorSystem(COLOR_SYSTEMS[name]), sixteen)


async def visited(visit: Visit, size: tuple[int, int], folder: Path, name: str) -> int:
    """The pictures of one visit, in a home of its own; how many they are."""
    pictures = 0
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as home:
        os.environ["TALLYCORD_HOME"] = os.environ["HOME"] = home
        workshop = open_at(Path(home))
        workshop._now = Clock()
        app = TallycordApp(workshop, first=ToBench())
        try:
            async with app.run_test(size=size) as pilot:
                async for page in visit(pilot, workshop):
                    (folder / f"{name}-{page}.svg").write_text(picture_of(app), encoding="utf-8")
                    pictures += 1
        except AssertionError as error:  # a page that never came: the others are still to be seen
            print(f"{name}: {visit.__name__} stopped after {pictures}: {error}", flush=True)
        workshop.close()
    return pictures


def in_terminal(settings: Mapping[str, str]) -> None:
    """From here on the terminal is one of that kind."""
    for setting in SETTINGS:
        os.environ.pop(setting, None)
    os.environ.update(settings, TALLYCORD_KEY_BOUNCE="0", TZ="UTC", LANG="C.UTF-8")


def chosen_visits(names: Sequence[str]) -> list[Visit]:
    """Those of that name; all where none is named."""
    return [visit for visit in VISITS if not names or visit.__name__ in names]


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("folder", type=Path)
    arguments.add_argument("--sizes", nargs="+", choices=SIZES, default=[*SIZES])
    arguments.add_argument("--looks", nargs="+", choices=LOOKS, default=[*LOOKS])
    arguments.add_argument("--visits", nargs="+", choices=[visit.__name__ for visit in VISITS], default=[])
    wanted = arguments.parse_args()
    folder = wanted.folder.resolve()
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as empty:
        os.chdir(empty)
        for look in wanted.looks:
            for size in wanted.sizes:
                in_terminal(LOOKS[look])
                told = [
                    asyncio.run(visited(visit, SIZES[size], folder, f"{look}-{size}"))
                    for visit in chosen_visits(wanted.visits)
                ]
                print(f"{look} {size}: {sum(told)} pictures", flush=True)
        os.chdir("/")


if __name__ == "__main__":
    main()
