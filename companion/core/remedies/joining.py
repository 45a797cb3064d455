"""New cord joined on, where hands can do it and the old cord will not reach; or else a fresh one."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.cord.cord import HIDES
from companion.core.forecast.join_place import can_be_joined, join_place
from companion.core.remedies.evaluation import Baseline
from companion.core.remedies.remedy import Remedy
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import capitalised, sentences
from companion.core.words.measured.join_words import HOW_TO_JOIN, join_words

EFFORT_JOIN = 4.0


def go_on(baseline: Baseline) -> Iterator[Remedy]:
    """Where the cord reaches the last knot, but is short to hold or to close with: to go on as it is, with what helps.
    Nothing is changed by it."""
    outlook, cord = baseline.outlook, baseline.cord
    if cord.verdict != "short to hold":
        return
    what = (
        "Go on, for the cord reaches the last knot. A small clamp that locks holds a short end as well. Little is left "
        "for the closure: make it short, and trim last of all"
    )
    yield Remedy(
        f"{what}.",
        what,
        outlook.finished.mean_mm,
        outlook.finished.half95_mm,
        outlook.p_in_tolerance,
        0.0,
        cord.p_run_out,
        advice=True,
        family=("hold",),
        p_short_to_hold=cord.p_short_to_hold,
    )


def join(baseline: Baseline) -> Iterator[Remedy]:
    """New cord joined on. The length stays as it is, and the cord then runs out no more often than the maker planned
    for.

    Nothing once the last knot is tied. If no bead takes both cords, the advice is to begin again with a fresh cord, and
    nothing is joined.
    """
    plan, outlook = baseline.plan, baseline.outlook
    if not can_be_joined(plan, outlook):
        return
    least_mm = max(baseline.cord.short_mm, 0.0)
    shown = show(least_mm, display_unit(plan.unit))
    each = "each cord" if plan.cord.layers > 1 else "the cord"
    possible = plan.cord.material in HIDES or join_place(plan, outlook) is not None
    gain = f"Join new cord on, at least {shown} more for {each}" if least_mm else "Join new cord on"
    what = f"{gain}. {join_words(plan, outlook)}" if possible else capitalised(join_words(plan, outlook))
    told = sentences(f"{what}.", HOW_TO_JOIN if possible else "")
    yield Remedy(
        told,
        told.removesuffix("."),
        outlook.finished.mean_mm,
        outlook.finished.half95_mm,
        outlook.p_in_tolerance,
        -least_mm,
        plan.risk,
        join=possible,
        advice=not possible,
        family=("join",),
        effort=EFFORT_JOIN,
    )
