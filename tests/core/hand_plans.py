"""Plans and pictures written out by hand, for tests that need values rather than a planner."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from companion.core.cord.cord import Cord, KnotFigures
from companion.core.picture.columns import Part, StrandColumns
from companion.core.plan.plan import Plan, PlannedStrand, Step
from companion.core.values.design import Bead, BeadKind, Element, Knot, Material, Size

GOLDEN = Path(__file__).parent / "golden"
GLASS = BeadKind("glass", "Sea-glass round", 6, 6, 1, "teal")
SILVER = BeadKind("silver", "Silver daisy", 2, 5, 1.2, "silver", "daisy")
KNOT_MM = 2.0


def skerry_elements() -> tuple[Element, ...]:
    """The Skerry bracelet: ten sea-glass beads, a daisy, the middle one, and back again; 178 mm."""
    knot, glass, silver = Knot("single"), Bead("glass"), Bead("silver")
    side = [glass, knot] * 10 + [silver, knot]
    return (knot, *side, glass, *reversed(side), knot)


def skerry_columns(unit: str = "in") -> StrandColumns:
    parts = {"glass": Part("bead", "glass", "G"), "silver": Part("bead", "silver", "S")}
    lengths_mm = {"glass": 6.0, "silver": 2.0}
    elements = skerry_elements()
    return StrandColumns.of(
        [parts[e.key] if isinstance(e, Bead) else Part("knot") for e in elements],
        [lengths_mm[e.key] if isinstance(e, Bead) else KNOT_MM for e in elements],
        unit,
    )


def hand_plan(
    *sides: tuple[Element, ...],
    beads: tuple[BeadKind, ...] = (GLASS, SILVER),
    closures: tuple[str, str] = ("plain tail", "plain tail"),
    material: Material = "silk",
    needle: bool = False,
    size: Size | None = None,
    finished_mm: float = 200.0,
    steps: int = 20,
    unit: str = "in",
) -> Plan:
    """A plan with these entries (the Skerry bracelet where none is given); figures that no test here reads are 0."""
    knot = KnotFigures(6, KNOT_MM, 0.4, 0.1, 0.7, 0.2, 10, "design")
    cord = Cord("twisted silk", 0.45, 2, material, needle, knot, knot, knot)
    strands = tuple(_strand(elements, closures, steps) for elements in sides or (skerry_elements(),))
    return Plan(
        "Skerry bracelet", "", unit, size, None, None, finished_mm, finished_mm, finished_mm, None, (), cord, beads,
        strands, (0,), (), (), (), 0.01,
    )  # fmt: skip


def _strand(elements: tuple[Element, ...], closures: tuple[str, str], steps: int) -> PlannedStrand:
    counts = Counter(element.key for element in elements if isinstance(element, Bead))
    one_step = Step(1, "string", "", (), None, 0, 0, 0, len(elements))
    zeros = [0.0] * 13
    return PlannedStrand("", "", None, 2, *closures, elements, (one_step,) * steps, tuple(counts.items()), (), *zeros)
