"""Every page in each state that has keys of its own: how to get there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from companion.core.draft.draft import Draft
from companion.tui.dialogs.dialog import Dialog
from companion.tui.page import Page
from companion.tui.routes import (
    Route,
    ToBench,
    ToCard,
    ToCords,
    ToDesign,
    ToDesignPlan,
    ToDraft,
    ToKnots,
    ToPiece,
    ToPlan,
    ToSettings,
    ToSteps,
)
from companion.workshop import OpenPiece, Workshop
from tests.tui.cards import LINEN, SILK, SILK_TESTS
from tests.tui.screens import until, until_seen

STEPS = 33  # of the Skerry bracelet


def piece(workshop: Workshop, design: Path, done: int, reading: bool = False) -> OpenPiece:
    """A piece with so many steps done."""
    opened = workshop.start(design)
    opened = workshop.jump(opened, done) if done else opened
    return workshop.measure(opened, "strand", 82.0, "82 mm") if reading else opened


def finished(workshop: Workshop, design: Path) -> OpenPiece:
    """A piece that was measured and noted on the way, and came out at 8 in."""
    opened = workshop.note(piece(workshop, design, 15, reading=True), "a looser hand tonight")
    return workshop.finish(workshop.jump(opened, STEPS), 203.0, None, None)


def put_away(workshop: Workshop, design: Path) -> OpenPiece:
    """A piece that is put away half-made."""
    return workshop.abandon(piece(workshop, design, 15), "")


def _two(workshop: Workshop, design: Path) -> Route:
    piece(workshop, design, 15)
    piece(workshop, design, 3)
    return ToDesign(design)


def _card(workshop: Workshop, tested: bool) -> Route:
    workshop.add_tests(SILK, *(SILK_TESTS if tested else ()))
    return ToCard(SILK.name)


def _cords(workshop: Workshop) -> Route:
    workshop.add_tests(LINEN)
    return ToCords()


def _draft(workshop: Workshop) -> Route:
    workshop.drafts.keep(Draft(name="Half made", body="18 cm"))
    return ToDraft()


Way = Callable[[Workshop, Path], Route]
STATES: dict[str, Way] = {
    "bench-empty": lambda shop, design: ToBench(),
    "bench-design": lambda shop, design: ToBench(at=ToDesign(shop.shipped_designs()[0])),
    "bench-design-under-way": lambda shop, design: (piece(shop, design, 3), ToBench(at=ToDesign(design)))[1],
    "bench-under-way": lambda shop, design: ToBench(at=ToPiece(piece(shop, design, 3).name)),
    "bench-finished": lambda shop, design: ToBench(at=ToPiece(finished(shop, design).name)),
    "bench-put-away": lambda shop, design: ToBench(at=ToPiece(put_away(shop, design).name)),
    "bench-card": lambda shop, design: (_cords(shop), ToBench(at=ToCard(LINEN.name)))[1],
    "start": lambda shop, design: ToDesign(design, new=True),
    "which-piece": _two,
    "design-plan": lambda shop, design: ToDesignPlan(shop.shipped_designs()[0]),
    "recap": lambda shop, design: ToPiece(piece(shop, design, 15).name),
    "steps-begun": lambda shop, design: ToSteps(piece(shop, design, 0)),
    "steps-middle": lambda shop, design: ToSteps(piece(shop, design, 15)),
    "steps-all-done": lambda shop, design: ToSteps(piece(shop, design, STEPS)),
    "steps-put-away": lambda shop, design: ToSteps(put_away(shop, design)),
    "plan-begun": lambda shop, design: ToPlan(piece(shop, design, 0)),
    "plan-middle": lambda shop, design: ToPlan(piece(shop, design, 15, reading=True)),
    "plan-finished": lambda shop, design: ToPlan(finished(shop, design)),
    "plan-put-away": lambda shop, design: ToPlan(put_away(shop, design)),
    "result": lambda shop, design: ToPiece(finished(shop, design).name),
    "cords-none": lambda shop, design: ToCords(),
    "cords": lambda shop, design: _cords(shop),
    "card-new": lambda shop, design: _card(shop, tested=False),
    "card": lambda shop, design: _card(shop, tested=True),
    "knots": lambda shop, design: ToKnots(),
    "settings": lambda shop, design: ToSettings(),
    "draft-empty": lambda shop, design: ToDraft(),
    "draft-begun": lambda shop, design: _draft(shop),
    "draft-whole": lambda shop, design: ToDraft(design),
}


async def to_state(pilot, state: str, skerry) -> str:
    """Close what is open, go there, and wait until it stands; the whole screen."""
    app = pilot.app
    while isinstance(app.screen, Dialog):
        app.screen.dismiss(None)
        await pilot.pause()
    before = app.screen
    app.go(STATES[state](app.workshop, skerry))
    await until(pilot, lambda: app.screen is not before and isinstance(app.screen, Page) and app.takes_keys())
    return await until_seen(pilot, "?")
