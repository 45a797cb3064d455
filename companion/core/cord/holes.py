"""Does the cord pass the hole, and does the knot hold the bead? All of it estimates; a test knot decides."""

from __future__ import annotations

from math import pi, sin, sqrt
from typing import Literal

from companion.core.values.design import KnotKind

Hold = Literal["holds", "test", "slips"]

# Least hole over cord diameter for 1, 2, 3 … cords side by side: circles packed in a circle. S. Kravitz, "Packing
# cylinders into cylindrical containers", Math. Mag. 40 (1967); n = 5, 6 proved by Graham (1968), 8 by Pirl (1969).
# The closed forms, and the figures of 10 and 12, rounded up: Wikipedia, "Circle packing in a circle".
PACKING = (
    1.0, 2.0, 1 + 2 / sqrt(3), 1 + sqrt(2), 1 + sqrt(2 + 2 / sqrt(5)), 3.0, 3.0, 1 + 1 / sin(pi / 7),
    1 + sqrt(4 + 2 * sqrt(2)), 3.814, 1 + 1 / sin(pi / 9), 4.030, 2 + sqrt(5),
)  # fmt: skip
# Width of a tight knot across the cord, in cord diameters: below the first figure it holds, above the second it slips.
# Ideal rope for the lower ones, hand-tied (estimates, no source) for the upper.
ACROSS_DIAMETERS: dict[KnotKind, tuple[float, float]] = {
    "single": (3.0, 3.0),
    "double": (3.1, 3.7),
    "triple": (3.1, 4.2),
}
TWO_LAYERS_SINGLE_ACROSS = 4.1
TWO_LAYERS_ACROSS = 1.35
SQUASH = 0.0  # the share by which soft cord gives way in a hole: none is counted on


def packing_ratio(cords: int) -> float:
    """Least hole diameter over cord diameter for so many cords (1 or more); beyond thirteen a close upper estimate."""
    return PACKING[cords - 1] if cords <= len(PACKING) else 1.17 * sqrt(cords)


def least_hole_mm(diameter_mm: float, cords: int, squash: float = SQUASH) -> float:
    """The smallest hole, mm, that so many cords of this diameter pass."""
    return diameter_mm * packing_ratio(cords) / (1 + squash)


# The packing figure is zero clearance (Kravitz): stiff ends, wax and the needle want 10 to 15 % over it.
ROOM = 0.10


def roomy_hole_mm(diameter_mm: float, cords: int) -> float:
    """A hole, mm, that so many cords of this diameter pass easily."""
    return least_hole_mm(diameter_mm, cords) * (1 + ROOM)


def across_mm(kind: KnotKind, diameter_mm: float, layers: int) -> tuple[float, float]:
    """How wide a knot is across the cord, mm: at least, at most. Three layers and more are extrapolated."""
    least, most = ACROSS_DIAMETERS[kind]
    if layers == 1:
        return least * diameter_mm, most * diameter_mm
    if kind == "single":
        least = most = TWO_LAYERS_SINGLE_ACROSS
    else:
        least, most = least * TWO_LAYERS_ACROSS, most * TWO_LAYERS_ACROSS
    beyond = (layers / 2) ** 0.43  # the power law that 1.35 for two layers begins
    return least * diameter_mm * beyond, most * diameter_mm * beyond


def holds(kind: KnotKind, diameter_mm: float, layers: int, hole_mm: float) -> Hold:
    """Whether a knot against a bead stops at its hole."""
    least, most = across_mm(kind, diameter_mm, layers)
    if hole_mm < least:
        return "holds"
    return "test" if hole_mm <= most else "slips"
