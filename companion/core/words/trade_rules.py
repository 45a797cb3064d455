"""Rules of the trade that stand beside what is computed: names of necklace lengths, three beads for a wrist."""

from __future__ import annotations

from math import pi

from companion.core.plan.plan import Plan
from companion.core.values.lengths import MM_PER_INCH

# Lists overlap by an inch or so. International Gem Society, "Bead and Necklace Size Charts"; Glossaria, "Pearl Necklace
# Lengths" (collar). Bounds in inches, from, up to.
LENGTH_NAMES = (
    ("collar", 12, 14),
    ("choker", 14, 16),
    ("princess", 16, 20),
    ("matinee", 20, 28),
    ("opera", 28, 36),
    ("rope", 36, 400),
)
BEADS_FOR_A_WRIST = 3


def length_name(finished_mm: float) -> str:
    """What the trade calls a necklace of that finished length, "" below a collar."""
    inches = finished_mm / MM_PER_INCH
    return next((name for name, first, last in LENGTH_NAMES if first <= inches < last), "")


def three_beads_rule_mm(plan: Plan) -> float | None:
    """The trade's target for a bracelet: wrist, ease and three bead diameters, mm; None for other sizes.

    Fire Mountain Gems and Beads, "Ask the Experts" 920b. The exact term is pi diameters, so the rule falls short.
    """
    if plan.size is None or plan.size.kind != "wrist" or plan.target_mm is None:
        return None
    base_mm = plan.size.body_mm + plan.size.ease_mm
    return base_mm + BEADS_FOR_A_WRIST * (plan.target_mm - base_mm) / pi
