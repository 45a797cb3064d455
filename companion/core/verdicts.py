"""From chances to a word: is the piece on plan, will the cord reach."""

from __future__ import annotations

from companion.core.assumptions import Assumptions
from companion.core.distributions import within
from companion.core.outlook import CordVerdict, Expected, Verdict
from companion.core.plan import Plan


def verdict(plan: Plan, finished: Expected, assumptions: Assumptions) -> Verdict:
    """Whether the piece is on plan, to be watched, or off.

    The chance of finishing within tolerance is held against the chance that a piece exactly on its plan would have
    with as little known about it: a tolerance narrower than anybody can foretell is no reason for a warning, a piece
    that has left its plan is.
    """
    if plan.target_mm is None or plan.tolerance_mm is None:
        return "no target"
    low_mm, high_mm = plan.target_mm - plan.tolerance_mm, plan.target_mm + plan.tolerance_mm
    best_mm = min(max(plan.finished_length_mm, low_mm), high_mm)
    attainable = within(low_mm, high_mm, best_mm, finished.sd_mm)
    share = within(low_mm, high_mm, finished.mean_mm, finished.sd_mm) / attainable if attainable else 0.0
    if share >= assumptions.on_plan_above:
        return "on plan"
    return "off" if share < assumptions.off_below else "watch"


def cord_verdict(p_run_out: float, assumptions: Assumptions) -> CordVerdict:
    """Whether the cord is enough, scant, or runs out, from its chance of not reaching."""
    if 1 - p_run_out >= assumptions.enough_above:
        return "enough"
    return "runs out" if 1 - p_run_out < assumptions.runs_out_below else "scant"
