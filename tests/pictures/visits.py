"""The way through the app that shows every page, in each of its main states."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from pathlib import Path

from msgspec.structs import replace
from textual.pilot import Pilot

from companion.core.draft.draft import BeadDraft, Draft
from companion.tui.app import TallycordApp
from companion.tui.routes import ToBench, ToCard, ToDesign, ToDraft, ToKnots, ToPiece, ToTrial
from companion.workshop import Workshop
from tests.tui.cards import LINEN, LINEN_TEST, SILK, SILK_TESTS
from tests.tui.screens import until, until_bench_drawn, until_seen

PATTERNS = Path(__file__).parents[2] / "patterns"
SKERRY = PATTERNS / "skerry-bracelet.yaml"
CUFF = Draft(
    name="Inner Farne cuff", body="165", ease="20", tolerance="5", cord="twisted silk", cord_diameter="0.45",
    layers="2", pattern="PPPPS",
    beads=(
        BeadDraft("P", name="Pink glass", length="8", hole="1.2", colour="pink"),
        BeadDraft("S", name="Silver spacer", length="3", diameter="5", hole="1.2", colour="silver"),
    ),
)  # fmt: skip
Shown = AsyncIterator[str]
Visit = Callable[[Pilot[int], Workshop], Shown]
OTHER_PIECES = (("fastnet-cuff", 10), ("longstone-necklace", 30), ("wolf-rock-necklace", 12), ("bell-rock-rope", 40))


async def stands(pilot: Pilot[int]) -> None:
    """Wait until the page is drawn: every picture on it too."""
    app = pilot.app
    await until(pilot, lambda: all(one.is_drawn for one in app.screen.query("PieceDrawing, KnotDrawing") if one.region))
    await until_seen(pilot, "")


async def typed(pilot: Pilot[int], *keys: str, then: str = "") -> None:
    """Press keys, and wait until those words stand there and all is drawn."""
    await pilot.press(*keys)
    await until_seen(pilot, then)
    await stands(pilot)


async def go(pilot: Pilot[int], route: object, then: str) -> None:
    """Lead the app to that page."""
    await until(pilot, lambda: not pilot.app.screen.is_modal)
    app = pilot.app
    assert isinstance(app, TallycordApp)
    app.go(route)  # type: ignore[arg-type]
    await until_seen(pilot, then)
    await stands(pilot)


def put_cursor(pilot: Pilot[int], label: str) -> None:
    """On the row whose line begins so."""
    rows = pilot.app.screen.query_one("Rows")
    rows.begin_with(next(row.value for row in rows.rows if row.text.strip().startswith(label)))


# -- the visits -------------------------------------------------------------------------------------------------------


async def empty_bench(pilot: Pilot[int], workshop: Workshop) -> Shown:
    """Nothing there yet."""
    await until_bench_drawn(pilot, "Esc quit")
    yield "bench-empty"
    await typed(pilot, "d", then="A design of your own")
    yield "design-empty"
    await go(pilot, ToTrial(), "1 of 11")
    yield "try"


async def making(pilot: Pilot[int], workshop: Workshop) -> Shown:
    """A piece from its first page to its result."""
    await until_seen(pilot, "Esc quit")
    await go(pilot, ToDesign(SKERRY), "Enter begin")
    yield "start"
    await typed(pilot, "enter", then="On length.")
    yield "follow-first"
    await typed(pilot, *["space"] * 15, then="Measure the strand now")
    yield "follow-middle"
    await typed(pilot, "f")
    yield "follow-afar"
    await typed(pilot, "f", "space", "m", *"3", "space", *"3/16", then="less than expected")
    yield "measure-gauge"
    await typed(pilot, "enter", then="Too short (w: what to do).")
    yield "follow-too-short"
    for key, words, name in (
        ("w", "choose", "ways-out"),
        ("M", "Readings", "readings"),
        ("v", "", "chart"),
        ("k", "How it is tied", "how-it-is-tied"),
        ("question_mark", "Keys and marks", "help"),
        ("colon", "", "palette"),
        ("r", "", "question-count"),
        ("s", "", "cautions"),
    ):
        await typed(pilot, key, then=words)
        yield name
        if name == "chart":
            await typed(pilot, "v")
            yield "chart-numbers"
        await pilot.press("escape")
        await until(pilot, lambda: not pilot.app.screen.is_modal)
    await typed(pilot, "p", then="Esc back")
    yield "plan"
    await typed(pilot, "escape", then="of 33")
    await typed(pilot, "j", *"33", "enter", then="all 33 steps done")
    yield "follow-last"
    await typed(pilot, "space")
    yield "question-finish"
    await typed(pilot, *"8", "enter")
    yield "question-left"
    await typed(pilot, "enter")
    yield "result"


async def long_piece(pilot: Pilot[int], workshop: Workshop) -> Shown:
    """A rope of over two hundred beads, and a piece that is gone on with."""
    opened = workshop.jump(workshop.start(PATTERNS / "bell-rock-rope.yaml"), 120)
    workshop.let_go()
    await until_seen(pilot, "Esc quit")
    await go(pilot, ToPiece(opened.name), "Last done")
    yield "recap"
    await typed(pilot, "enter", then="of ")
    yield "follow-rope"
    await go(pilot, ToDesign(PATTERNS / "inner-farne-strands.yaml"), "Enter begin")
    yield "start-strands"


async def full_bench(pilot: Pilot[int], workshop: Workshop) -> Shown:
    """Pieces, designs and cards; then all that the bench leads to."""
    for name, steps in OTHER_PIECES:
        workshop.jump(workshop.start(PATTERNS / f"{name}.yaml"), steps)
        workshop.let_go()
    workshop.add_tests(SILK, *SILK_TESTS)
    workshop.add_tests(LINEN, LINEN_TEST)
    await until_seen(pilot, "Esc quit")
    await go(pilot, ToBench(), "Bench")
    await pilot.press("home")
    await until_bench_drawn(pilot, "Under way")
    yield "bench-full"
    await typed(pilot, "k", then="skerry silk")
    yield "cords"
    await go(pilot, ToCard("skerry silk"), "Cord card")
    yield "cord-card"
    await typed(pilot, "enter", then="length before")
    yield "cord-form"
    await typed(pilot, "escape")
    await go(pilot, ToKnots(), "Esc bench")
    yield "knots"
    for label, name in (("double knot", "double-knot"), ("French wire", "french-wire"), ("knot cover", "knot-cover")):
        put_cursor(pilot, label)
        await typed(pilot, "enter")
        yield f"knots-{name}"
        await pilot.press("escape")
        await until(pilot, lambda: not pilot.app.screen.is_modal)
    await typed(pilot, "escape", then="Esc quit")
    await typed(pilot, "S", then="Settings")
    yield "settings"


async def designing(pilot: Pilot[int], workshop: Workshop) -> Shown:
    """The design page, each of its parts, and what it leads to."""
    await until_seen(pilot, "Esc quit")
    workshop.drafts.keep(CUFF)
    await go(pilot, ToDraft(), "Inner Farne cuff")
    yield "design"
    for label in ("name", "length", "cord", "its knots", "beads", "pattern", "ends"):
        put_cursor(pilot, label)
        await typed(pilot, "enter")
        yield f"design-{label.replace(' ', '-')}"
        await pilot.press("escape")
        await until(pilot, lambda: not pilot.app.screen.is_modal)
    await typed(pilot, "P", then="1 of ")
    yield "design-picture"
    await typed(pilot, "escape")
    await typed(pilot, "E")
    yield "design-every"
    await typed(pilot, "escape")
    await typed(pilot, "c", then="The same piece made in other ways")
    yield "compare"
    await typed(pilot, "escape")
    workshop.drafts.keep(replace(CUFF, body="161", ease="0", tolerance="1"))
    await go(pilot, ToDraft(), "Inner Farne cuff")
    yield "design-does-not-come-out"


VISITS: tuple[Visit, ...] = (empty_bench, making, long_piece, full_bench, designing)
