"""Counting the beads of some steps, in words: what should be there, and what the answer says."""

from __future__ import annotations

from companion.core.forecast.counting import Stretch
from companion.core.plan.plan import Plan
from companion.core.values.text import count_of
from companion.core.words.step_words import step_name


def stretch_words(plan: Plan, counted: Stretch) -> str:
    """The question's first sentence: "Steps 13 to 18 should hold 6 beads."."""
    first, last = step_name(plan, max(1, counted.since + 1)), step_name(plan, max(1, counted.step))
    beads = count_of(counted.beads, "bead", "one")
    if counted.step - counted.since <= 1:
        return f"Step {last} should hold {beads}."
    return f"Steps {first} to {last} should hold {beads}."


def count_words(beads: int) -> str:
    """What a count says that found so many beads more than planned; 0: as many; below 0: fewer."""
    if beads == 0:
        return "Counted, and right: kept in the sum. Counting again corrects it."
    number = "One" if abs(beads) == 1 else abs(beads)
    return (
        f"{number} {'more' if beads > 0 else 'fewer'} than the plan says: kept in the sum. Take back to there and put "
        "it right, or go on and see what to do about the length."
    )
