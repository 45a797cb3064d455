"""From chances to a word: whether the piece is on plan, and whether the cord will reach.

"Off" is an alarm: it asks the maker to change something. In the first half of a piece it can wait, for the next reading
tells more, and what can be changed now can be changed then as well. So until `Assumptions.off_from` of the strand is
strung a length is off only where that is all but certain. One that may turn out either way is to be watched, which is
a mark beside the figures and asks for nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.forecast.outlook import CordVerdict, Fault, Verdict
from companion.core.journal.piece import Piece
from companion.core.maths.distributions import within
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import Assumptions

MISCOUNT = ("bead missed", "bead too many")
TENSION = ("tension changed", "tension drifting")
NAMED_FROM = 0.3  # chance from which something is told as the cause, as a maker would act on it; our own choice
# Near enough to the target: a length, or a share of the tolerance; and the share from which on more is told.
ENOUGH_MM, ENOUGH_SHARE, TOLD_SHARE = 1.0, 0.4, 0.5  # our own choice


def verdict(
    plan: Plan,
    sd_mm: float,
    p_on_plan: float | None,
    faults: Sequence[Fault],
    assumptions: Assumptions,
    before: Verdict | None = None,
    *,
    strung: float,
) -> Verdict:
    """The verdict on a piece: by its chance of finishing on plan, unless a fault is too likely; then by the fault.

    A change of tension is judged by the length that it leads to. A reading that later ones contradict is judged by
    them, for to measure there again would tell no more.

    `sd_mm`: of the finished length; `p_on_plan`: the chance that it lies between the lengths of `on_plan_between`, None
    without a target; `strung`: the share of the strand, from 0 to 1, that the latest reading goes over. `before`: the
    verdict after the reading before. A verdict needs a little less to stay than to appear, so that it does not change
    with every reading.
    """
    by_length = _by_length(plan, sd_mm, p_on_plan, assumptions, before, strung)
    miscount = sum(fault.p for fault in faults if fault.kind in MISCOUNT)
    misread = sum(fault.p for fault in faults if fault.kind == "misread" and not fault.settled)
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
    if max(miscount, misread) <= tension:
        return by_length
    if miscount >= misread:
        return "recount"
    return "measure again" if misread >= NAMED_FROM else by_length


def on_plan_between(plan: Plan) -> tuple[float, float] | None:
    """Between which finished lengths a piece is on plan, mm; None without a target.

    That is the target with its tolerance either way. If the design itself misses that, the maker was told before the
    work began and went on with it, so it is no alarm: the range then reaches one tolerance beyond the design's own
    length.
    """
    if plan.target_mm is None or plan.tolerance_mm is None:
        return None
    low_mm, high_mm = plan.target_mm - plan.tolerance_mm, plan.target_mm + plan.tolerance_mm
    if low_mm <= plan.finished_length_mm <= high_mm:
        return low_mm, high_mm
    planned_mm = plan.finished_length_mm
    return min(low_mm, planned_mm - plan.tolerance_mm), max(high_mm, planned_mm + plan.tolerance_mm)


def near_enough_mm(plan: Plan) -> float:
    """Nearer to its target than this a piece need not come."""
    return max(ENOUGH_MM, ENOUGH_SHARE * (plan.tolerance_mm or 0.0))


def worth_telling_mm(plan: Plan, piece: Piece) -> float:
    """From which miss of its target on, mm, a piece that is within tolerance may still be wanted nearer. If beads were
    counted and are missing or too many, that is any miss that can be seen."""
    miscounted = any(one.beads for one in piece.counted)
    return ENOUGH_MM if miscounted else max(ENOUGH_MM, TOLD_SHARE * (plan.tolerance_mm or 0.0))


def _by_length(
    plan: Plan,
    sd_mm: float,
    p_on_plan: float | None,
    assumptions: Assumptions,
    before: Verdict | None,
    strung: float,
) -> Verdict:
    """On plan, to be watched, or off.

    The chance of finishing on plan is compared with that of a piece exactly on its plan of which as little is known. So
    a tolerance that is too narrow for any forecast gives no warning; a piece that has left its plan does.
    """
    between = on_plan_between(plan)
    if between is None or p_on_plan is None:
        return "no target"
    attainable = within(*between, plan.finished_length_mm, sd_mm)
    share = p_on_plan / attainable if attainable else 0.0
    if share >= assumptions.on_plan_above + (assumptions.stays_by if before in ("watch", "off") else 0.0):
        return "on plan"
    level = assumptions.off_below if strung >= assumptions.off_from else assumptions.surely_off_below
    if share < level + (assumptions.stays_by if before == "off" else 0.0):
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
