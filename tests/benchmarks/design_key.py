"""A key typed on the design page: the processor time until it is judged, drawn and painted. Reported, never asserted.

    .venv/bin/python -m tests.benchmarks.design_key [--elements 200] [--keys 40]

Processor time of the whole app in this process, so that a busy neighbour counts for little; at most 50 ms are wanted.
"""

from __future__ import annotations

import argparse
import asyncio
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from msgspec.structs import replace
from textual.pilot import Pilot

from companion.core.draft.draft import BeadDraft, Draft
from companion.tui.app import TallycordApp
from companion.tui.routes import ToDraft
from companion.workshop import open_at

SIZES = ((60, 18), (80, 24), (120, 40), (200, 60))
BEADS = (
    BeadDraft("P", name="Pink glass", length="8", hole="1.2", colour="pink"),
    BeadDraft("S", name="Silver spacer", length="3", diameter="5", hole="1.2", colour="silver", shape="daisy"),
)


def draft_of(elements: int) -> Draft:
    """A necklace of about so many beads and knots, and a clasp that is a little too short for it."""
    beads = max(1, (elements - 1) // 2)
    mixed = ("PPPPS" * beads)[:beads]
    long_mm = 9 * beads
    return Draft(
        name="Ness", measured="length", body=f"{long_mm} mm", cord="silk", cord_diameter="0.45", layers="2",
        beads=BEADS, pattern=mixed, times="1",
    )  # fmt: skip


async def processor_ms(pilot: Pilot[int], key: str, seen: Callable[[], bool]) -> float:
    """Milliseconds of processor from a key until what it changes is there and painted."""
    begun = time.process_time()
    await pilot.press(key)
    while not seen():
        await pilot.pause()
    await pilot.pause()
    return 1000 * (time.process_time() - begun)


async def typed(home: Path, size: tuple[int, int], draft: Draft, keys: int) -> tuple[list[float], list[float]]:
    """The same for letters typed into the pattern, and for steps of the cursor on the picture."""
    workshop = open_at(home)
    workshop.drafts.keep(draft)
    app = TallycordApp(workshop, first=ToDraft())
    async with app.run_test(size=size) as pilot:
        app.keep_tidy()  # as outside a test
        while getattr(app.screen, "plan", None) is None:
            await pilot.pause()
        page = app.screen
        page.query_one("Rows").begin_with(("pattern", 0))
        await pilot.press("enter")
        while app.screen is page or app.screen.focused is None:
            await pilot.pause()
        letters, steps = [], []
        for number in range(keys):
            before = page.judged
            letters.append(await processor_ms(pilot, "PS"[number % 2], lambda before=before: page.judged is not before))
        await pilot.press("escape", "escape", "P")
        while app.screen is page or not app.screen.places:
            await pilot.pause()
        for _ in range(keys):
            before = app.screen.at
            steps.append(await processor_ms(pilot, "right", lambda before=before: replace(app.screen.at) != before))
    workshop.close()
    return letters, steps


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--elements", type=int, default=200)
    arguments.add_argument("--keys", type=int, default=40)
    wanted = arguments.parse_args()
    draft = draft_of(wanted.elements)
    print(f"{wanted.elements} elements, processor ms: median (nine in ten under; at most)")
    for size in SIZES:
        with tempfile.TemporaryDirectory() as home:
            letters, steps = asyncio.run(typed(Path(home), size, draft, wanted.keys))
        told = [
            f"{statistics.median(one):.0f} ({sorted(one)[len(one) * 9 // 10]:.0f}; {max(one):.0f})"
            for one in (letters, steps)
        ]
        print(f"  {size[0]} x {size[1]}: a letter of the pattern {told[0]}, a step on the picture {told[1]}")


if __name__ == "__main__":
    main()
