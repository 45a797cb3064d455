"""A longer cord, cut afresh: the first way out of a short one as long as nothing is made with it."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.forecast.observations import elements_made
from companion.core.journal.events import CutEntered
from companion.core.journal.fold import after
from companion.core.plan.cut import told_cut_mm
from companion.core.remedies.evaluation import Baseline
from companion.core.remedies.remedy import Remedy
from companion.core.values.measures.show_lengths import display_unit, show_up


def fresh_cut(baseline: Baseline) -> Iterator[Remedy]:
    """The cord that is short, cut anew as the plan has it. None once a bead or knot of the strand is made, or the cord
    in hand was measured; none where it is no shorter than that. Choosing it enters the new cut."""
    plan, piece = baseline.plan, baseline.piece
    worst = baseline.outlook.worst_cord
    number = next((number for number, cut in enumerate(plan.cuts) if worst in cut.entries), None)
    if number is None or piece.readings or piece.joins:
        return
    cut = plan.cuts[number]
    entered_mm = piece.cut_mm(number)
    if entered_mm is None or entered_mm >= cut.cut_mm:
        return
    if any(elements_made(plan, entry, piece.done) for entry in cut.entries):
        return
    shown = show_up(cut.cut_mm, display_unit(plan.unit))
    which = f" for {cut.name}" if len(plan.cuts) > 1 else ""
    lost = "Nothing is knotted on this one yet"
    event = CutEntered(number, told_cut_mm(plan, number), shown)
    draft = Remedy(
        "", f"Cut a longer cord{which}, {shown}. {lost}", 0.0, 0.0, None, 0.0, 0.0, family=("fresh cut",), cut=event
    )  # fmt: skip
    yield baseline.with_outlook(draft, baseline.forecast(plan, after(piece, event)))
