"""From chances to a word: is the piece on plan, will the cord reach."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.assumptions import Assumptions
from companion.core.distributions import within
from companion.core.outlook import CordVerdict, Expected, Story, Verdict
from companion.core.plan import Plan

MISCOUNT = ("bead missed", "bead too many")
TENSION = ("tension changed", "tension drifting")


def verdict(
    plan: Plan, finished: Expected, p_in_tolerance: float | None, stories: Sequence[Story], assumptions: Assumptions
) -> Verdict:
    """What to make of the piece: by its chance of tolerance, unless a fault is likelier than not; then by its kind."""
    by_length = _by_length(plan, finished, p_in_tolerance, assumptions)
    miscount = sum(story.p for story in stories if story.kind in MISCOUNT)
    misread = sum(story.p for story in stories if story.kind == "misread")
    tension = sum(story.p for story in stories if story.kind in TENSION)
    off_plan = by_length in ("watch", "off")
    if miscount + misread + tension < (assumptions.suspect_above if off_plan else assumptions.alarm_above):
        return by_length
    if max(miscount, misread) > tension:
        return "recount" if miscount >= misread else "measure again"
    return "watch" if by_length == "on plan" and tension >= assumptions.alarm_above else by_length


def _by_length(plan: Plan, finished: Expected, p_in_tolerance: float | None, assumptions: Assumptions) -> Verdict:
    """On plan, to be watched, or off.

    The chance of finishing within tolerance is held against the chance that a piece exactly on its plan would have
    with as little known about it: a tolerance narrower than anybody can foretell is no reason for a warning, a piece
    that has left its plan is.
    """
    if plan.target_mm is None or plan.tolerance_mm is None or p_in_tolerance is None:
        return "no target"
    low_mm, high_mm = plan.target_mm - plan.tolerance_mm, plan.target_mm + plan.tolerance_mm
    best_mm = min(max(plan.finished_length_mm, low_mm), high_mm)
    attainable = within(low_mm, high_mm, best_mm, finished.sd_mm)
    share = p_in_tolerance / attainable if attainable else 0.0
    if share >= assumptions.on_plan_above:
        return "on plan"
    return "off" if share < assumptions.off_below else "watch"


def cord_verdict(p_run_out: float, assumptions: Assumptions) -> CordVerdict:
    """Whether the cord is enough, scant, or runs out, from its chance of not reaching."""
    if 1 - p_run_out >= assumptions.enough_above:
        return "enough"
    return "runs out" if 1 - p_run_out < assumptions.runs_out_below else "scant"
