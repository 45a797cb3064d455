"""New cord joined on, where the old one will not reach."""

from __future__ import annotations

from companion.core.forecast.outlook import Outlook
from companion.core.plan.plan import Plan, Step
from companion.core.remedies.evaluation import Baseline
from companion.core.remedies.remedy import Remedy
from companion.core.values.show_lengths import display_unit, show
from companion.core.words.step_words import entry_step_name

STEPS_TO_JOIN_IN = 6
EFFORT_JOIN = 4.0


def join(baseline: Baseline) -> Remedy:
    """New cord joined on: the length stays as it is, and the rest of the strand is the maker's own again."""
    least_mm = max(baseline.cord.short_mm, 0.0)
    shown = show(least_mm, display_unit(baseline.plan.unit))
    change = f"Join new cord on, at least {shown} more a layer" if least_mm else "Join new cord on"
    what = f"{change}. {join_place(baseline.plan, baseline.outlook)}"
    outlook = baseline.outlook
    return Remedy(
        f"{what}.",
        what,
        outlook.finished.mean_mm,
        outlook.finished.half95_mm,
        outlook.p_in_tolerance,
        -least_mm,
        baseline.plan.risk,
        join=True,
        family=("join",),
        effort=EFFORT_JOIN,
    )


def join_place(plan: Plan, outlook: Outlook) -> str:
    """Where new cord is best joined on, without a full stop: inside a bead, for old and new lie side by side there.

    The bead is the one with the widest hole among the last steps that the cord still reaches; of holes alike or not
    given, the longest.
    """
    number = outlook.worst_cord
    steps = _steps_reached(plan, outlook, number)
    if not steps:
        return "Join it inside the next bead"
    step = max(steps, key=lambda step: max(_room_mm(plan, key) for key in step.beads))
    bead = max(step.beads, key=lambda key: _room_mm(plan, key))
    return f"Best inside a bead: {plan.bead(bead).name} of step {entry_step_name(plan, number, step.number)}"


def _steps_reached(plan: Plan, outlook: Outlook, number: int) -> list[Step]:
    """The last steps with beads that the cord of an entry is enough for, of those still to be made."""
    entry, steps = outlook.entries[number], plan.strands[number].steps
    end = entry.cord.step - 1 if entry.cord.step is not None else len(steps)
    return [step for step in steps[max(entry.done, end - STEPS_TO_JOIN_IN) : end] if step.beads]


def _room_mm(plan: Plan, key: str) -> tuple[float, float]:
    """How much room a bead has for two ends of cord: its hole, then its length."""
    kind = plan.bead(key)
    return kind.hole_mm or 0.0, kind.length_mm
