"""From chances to a word: whether the piece is on plan, and whether the cord will reach."""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.forecast.outlook import CordVerdict, Fault, Verdict
from companion.core.maths.distributions import within
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import Assumptions

MISCOUNT = ("bead missed", "bead too many")
TENSION = ("tension changed", "tension drifting")


def verdict(
    plan: Plan,
    sd_mm: float,
    p_in_tolerance: float | None,
    faults: Sequence[Fault],
    assumptions: Assumptions,
    before: Verdict | None = None,
) -> Verdict:
    """The verdict on a piece: by its chance of finishing within tolerance, unless a fault is too likely; then by the
    fault.

    `sd_mm`: of its finished length. `before`: the verdict after the reading before. It stays a little longer than it
    would come up by itself, so that it does not change with every reading.
    """
    by_length = _by_length(plan, sd_mm, p_in_tolerance, assumptions, before)
    miscount = sum(fault.p for fault in faults if fault.kind in MISCOUNT)
    misread = sum(fault.p for fault in faults if fault.kind == "misread")
    tension = sum(fault.p for fault in faults if fault.kind in TENSION)
    level = assumptions.suspect_above if by_length in ("watch", "off") else assumptions.alarm_above
    if before in ("recount", "measure again"):
        level -= assumptions.stays_by
    if miscount + misread + tension < level:
        return by_length
    if before == "recount":
        miscount += assumptions.stays_by
    if before == "measure again":
        misread += assumptions.stays_by
    if max(miscount, misread) > tension:
        return "recount" if miscount >= misread else "measure again"
    return "watch" if by_length == "on plan" and tension >= assumptions.alarm_above else by_length


def _by_length(
    plan: Plan, sd_mm: float, p_in_tolerance: float | None, assumptions: Assumptions, before: Verdict | None
) -> Verdict:
    """On plan, to be watched, or off.

    The chance of finishing within tolerance is compared with that of a piece exactly on its plan of which as little is
    known. So a tolerance that is too narrow for any forecast gives no warning; a piece that has left its plan does.
    """
    if plan.target_mm is None or plan.tolerance_mm is None or p_in_tolerance is None:
        return "no target"
    low_mm, high_mm = plan.target_mm - plan.tolerance_mm, plan.target_mm + plan.tolerance_mm
    best_mm = min(max(plan.finished_length_mm, low_mm), high_mm)
    attainable = within(low_mm, high_mm, best_mm, sd_mm)
    share = p_in_tolerance / attainable if attainable else 0.0
    if share >= assumptions.on_plan_above + (assumptions.stays_by if before in ("watch", "off") else 0.0):
        return "on plan"
    if share < assumptions.off_below + (assumptions.stays_by if before == "off" else 0.0):
        return "off"
    return "watch"


def cord_verdict(p_run_out: float, assumptions: Assumptions, p_short_to_hold: float = 0.0) -> CordVerdict:
    """What there is to say of a cord, from its chances of ending before the last knot and of being short to hold.

    The two are never added up into an alarm: a cord that reaches is not said to run out.
    """
    if 1 - p_run_out < assumptions.runs_out_below:
        return "runs out"
    if 1 - p_run_out < assumptions.enough_above:
        return "scant"
    return "short to hold" if 1 - p_run_out - p_short_to_hold < assumptions.held_above else "enough"
