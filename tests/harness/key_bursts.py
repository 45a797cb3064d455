"""Keys and clicks in bursts, faster than screens are built, at every screen of the app: none may end it.

A trial is drawn from its seed and number alone. Between bursts the app has its turn for a moment that is drawn as well,
so keys come at screens that are there, half built or on their way out.
"""

from __future__ import annotations

import asyncio
import random
import shutil
import traceback
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from textual import events
from textual.pilot import Pilot

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.tui.app import TallycordApp
from companion.workshop import Workshop, open_at

SIZES = ((80, 24), (60, 18))
SKERRY = Path(__file__).parents[2] / "patterns" / "skerry-bracelet.yaml"
PIECES = ("skerry-bracelet", "skerry-bracelet 2", "skerry-bracelet 3", "skerry-bracelet 4")
# What leads somewhere comes more often than what ends everything.
KEYS = (
    *("space",) * 12, *("enter",) * 12, *("escape",) * 12, *("up", "down") * 4, *"uumcnjowrxkkst", *"mcnjrkkk", *"hq",
    "question_mark", "f1", "plus", "colon", "colon", "y",
    "slash", "pagedown", "backspace", "left", "right", "tab", "ctrl+u", *"0123456789",
)  # fmt: skip
TYPED = ("42", "178 mm", "7 in", "1/16", "n", "y", "glass", "0.6 mm", "33", "1", "wolf")
CHARACTERS = {"space": " ", "question_mark": "?", "plus": "+", "slash": "/", "colon": ":"}


@dataclass
class Trial:
    """What came of one trial. `screens`: which were seen after a burst, how often; `wrong`: a traceback, or ""."""

    number: int
    size: tuple[int, int]
    sent: int = 0
    screens: Counter[str] = field(default_factory=Counter)
    wrong: str = ""


def prepare(folder: Path) -> None:
    """What all trials begin from: pieces at their beginning, in the middle and off plan, at their end and finished."""
    workshop = open_at(folder / "begun")
    workshop.start(SKERRY)
    off = workshop.jump(workshop.start(SKERRY), 19)
    workshop.measure(off, "strand", 120.0, "120 mm")
    workshop.jump(workshop.start(SKERRY), 27)
    workshop.finish(workshop.jump(workshop.start(SKERRY), 33), 202.0)
    test = CardTest("single", KnotTest(200.0, 194.0, 1), None, "200 mm; 194 mm")
    workshop.add_tests(CordCard("waxed linen", 0.6, 1, "waxed linen", "awl"), test)
    workshop.close()


def run_trial(folder: Path, job: tuple[int, tuple[int, int]], seed: int, most_keys: int = 400) -> Trial:
    """One trial: the number and the size are the job's."""
    number, size = job
    result = Trial(number, size)
    home = folder / f"home-{number}-{size[0]}"
    shutil.copytree(folder / "begun", home)
    draw = random.Random(f"keys {seed} {number} {size}")
    try:
        while result.sent < most_keys and not result.wrong:
            asyncio.run(_until_left(draw, home, result, most_keys))
    except (Exception, asyncio.CancelledError):
        result.wrong = traceback.format_exc(limit=-8)
    shutil.rmtree(home)
    return result


async def _until_left(draw: random.Random, home: Path, result: Trial, most_keys: int) -> None:
    """One run of the app, until the keys are used up or have led out of it."""
    workshop = open_at(home)
    app = _app(draw, workshop)
    try:
        async with app.run_test(size=result.size) as pilot:
            while result.sent < most_keys and not app._exit:
                for event in _burst(draw, result.size):
                    app.post_message(event)
                    result.sent += isinstance(event, events.Key)
                await _moment(draw, pilot)
                result.screens[type(app.screen).__name__] += 1
            await _settled(app)
    finally:
        app.close_trial()
        workshop.close()


async def _settled(app: TallycordApp) -> None:
    """Until every key is done, or the app has ended: an app is not left while a screen of it is being built."""
    typed: list[bool] = []
    app.call_later(typed.append, True)
    while not app._exit and not app._exception and not (typed and not app._typed and app.takes_keys()):
        await asyncio.sleep(0.002)


def _app(draw: random.Random, workshop: Workshop) -> TallycordApp:
    match draw.randrange(4):
        case 0:
            return TallycordApp(workshop)
        case 1:
            return TallycordApp(workshop, design=SKERRY, new=draw.random() < 0.5)
        case _:
            return TallycordApp(workshop, piece=draw.choice(PIECES))


def _burst(draw: random.Random, size: tuple[int, int]) -> Iterator[events.Event]:
    for _ in range(draw.choice((1, 2, 3, 5, 8, 20))):
        what = draw.random()
        if what < 0.8:
            key = draw.choice(KEYS)
            yield events.Key(key, CHARACTERS.get(key, key if len(key) == 1 else None))
        elif what < 0.95:
            yield from (events.Key("space" if letter == " " else letter, letter) for letter in draw.choice(TYPED))
        else:
            yield from _click(draw.randrange(size[0]), draw.choice((draw.randrange(size[1]), size[1] - 1)))


def _click(x: int, y: int) -> Iterator[events.Event]:
    for kind in (events.MouseDown, events.MouseUp):
        yield kind(None, x, y, 0, 0, 1, False, False, False)


async def _moment(draw: random.Random, pilot: Pilot[int]) -> None:
    """Anything from no time at all to the time that every screen needs."""
    match draw.randrange(6):
        case 0 | 1:
            await asyncio.sleep(0)
        case 2 | 3:
            await asyncio.sleep(draw.choice((0.001, 0.005, 0.02)))
        case _:
            await pilot.pause()
