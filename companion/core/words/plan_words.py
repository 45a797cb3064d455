"""Sentences about a plan that the paper and the screen before the first knot share."""

from __future__ import annotations

from companion.core.plan.plan import Plan
from companion.core.plan.tray import tools
from companion.core.values.show_lengths import display_unit, show
from companion.core.values.text import join_words


def fit_line(plan: Plan) -> str:
    """How many repeats fit, and what one more or fewer would give; "" where nothing is to be fitted."""
    if plan.fit is None:
        return ""
    unit = display_unit(plan.unit)
    others = [f"{other.count} would give {show(other.finished_mm, unit)}" for other in plan.fit_others]
    return f"Fit: {plan.fit} repeats; {join_words(others)}."


def tools_line(plan: Plan) -> str:
    """What to lay ready."""
    return f"Lay ready: {join_words(list(tools(plan)))}."
