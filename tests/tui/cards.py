"""Two cord cards, and the way to the form for one's next row."""

from __future__ import annotations

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest as Row
from companion.core.cord.knot_tests import TouchingRow as Touching
from companion.tui.routes import ToCard
from tests.tui.screens import until_seen

SILK = CordCard("skerry silk", 0.45, 2, "silk", "awl")
LINEN = CordCard("lizard linen", 0.6, 1, "waxed linen", "needle")
LINEN_TEST = CardTest("double", Row(300.0, 284.0, 1), None, "30 cm; 284 mm")
SIXTEENTH = 25.4 / 16
SILK_TESTS = (
    CardTest("single", Row(300.0, 238.0, 10, SIXTEENTH), None, "30 cm; 23.8 cm"),
    CardTest("single", Row(200.0, 194.0, 1), None, "200 mm; 194 mm"),
    CardTest("single", None, Touching(10.0, 5), "10 mm"),
)


async def to_form(pilot, card: str) -> None:
    """From the bench to the form for that card's next row."""
    await until_seen(pilot, "Esc quit")
    await pilot.press("k")
    await until_seen(pilot, card)
    rows = pilot.app.screen.query_one("Rows")
    rows.begin_with(ToCard(card))
    await pilot.press("enter")
    await until_seen(pilot, "Cord card")
    await pilot.press("enter")
    await until_seen(pilot, "length before")
