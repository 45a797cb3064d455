"""Rules of the trade that stand beside what is computed: names of necklace lengths, three beads for a wrist."""

from __future__ import annotations

from math import pi

from companion.core.plan.fit import body_to_pass
from companion.core.plan.plan import Plan
from companion.core.values.measures.units import MM_PER_INCH

# Bounds in inches, of necklaces. International Gem Society, "Bead and Necklace Size Charts".
LENGTH_NAMES = (("choker", 14, 16), ("princess", 16, 19), ("matinee", 20, 24), ("opera", 28, 32), ("rope", 32, 400))
NEAR_IN = 1.0  # a length between two names takes the nearer, where it is no further off than this; our own choice
BEADS_FOR_A_WRIST = 3


def length_name(plan: Plan) -> str:
    """What the trade calls a necklace of the planned length; "" where no name is near, and for what is no necklace."""
    if body_to_pass(plan.size, plan.finished_length_mm)[0] != "head":
        return ""
    inches = plan.finished_length_mm / MM_PER_INCH
    if not LENGTH_NAMES[0][1] <= inches <= LENGTH_NAMES[-1][2]:
        return ""
    named = ((max(first - inches, inches - last, 0.0), name) for name, first, last in LENGTH_NAMES)
    off, name = min(named, key=lambda pair: pair[0])
    return name if off <= NEAR_IN else ""


def three_beads_rule_mm(plan: Plan) -> float | None:
    """The trade's target for a bracelet: wrist, ease and three bead diameters, mm; None for other sizes.

    Fire Mountain Gems and Beads, "Ask the Experts" 920b. The exact term is pi diameters, so the rule falls short.
    """
    if plan.size is None or plan.size.kind != "wrist" or plan.target_mm is None:
        return None
    base_mm = plan.size.body_mm + plan.size.ease_mm
    return base_mm + BEADS_FOR_A_WRIST * (plan.target_mm - base_mm) / pi
