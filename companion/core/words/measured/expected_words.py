"""What the ruler should say of the strand, or of the leftover cord."""

from __future__ import annotations

from companion.core.journal.events import ReadingKind
from companion.core.plan.plan import Plan
from companion.core.values.design import Bead
from companion.core.values.expected import Expected
from companion.core.values.measures.show_lengths import display_unit, show, show_number
from companion.core.values.text import capitalised, sentences


def expected_words(plan: Plan, kind: ReadingKind, shown: str, when: str = "") -> str:
    """What the ruler should say, a sentence. `shown`: the length, with its unit; `when`: said before it, such as "after
    step 6"."""
    before = f"{when} the" if when else "the"
    if kind == "strand":
        return capitalised(f"{before} strand should measure {shown}.")
    each = " each" if plan.cord.layers > 1 else ""
    return capitalised(f"{before} leftover cord should measure {shown}{each}, tail included.")


def expected_between(plan: Plan, kind: ReadingKind, expected: Expected, planned_mm: float | None) -> str:
    """The same without a drawing beside it: from where to where it may be (19 times in 20), and what the plan says if
    that differs: "The strand should measure 5 9/16 in, anything from 5 7/16 to 5 11/16 in. The plan says 5 1/2 in."."""
    unit = display_unit(plan.unit)
    low, high = show_number(max(0.0, expected.low95_mm), unit), show(expected.high95_mm, unit)
    shown = show(expected.mean_mm, unit)
    planned = "" if planned_mm is None else show(planned_mm, unit)
    says = f"The plan says {planned}." if planned not in ("", shown) else ""
    return sentences(expected_words(plan, kind, f"{shown}, anything from {low} to {high}"), says)


def where_leftover(plan: Plan, done: int) -> str:
    """Where the leftover cord is measured from once that many steps of the piece are done, and what of beads that are
    strung but not knotted yet."""
    entry, number = plan.place(done) if done else (0, 0)
    strand = plan.strands[entry]
    step = strand.steps[number - 1] if number else None
    if step is not None and step.kind == "end":
        return "Measure from the closure to the end of the tail."
    made = step.elements if step is not None else 0
    begin = "the last knot" if made else "where the first knot will be"
    loose = strand.strung_all_first and any(isinstance(one, Bead) for one in strand.elements[made:])
    strung = loose and (made or (step is not None and number == sum(one.kind == "start" for one in strand.steps)))
    along = ", straight along the beads that are still loose" if strung else ""
    return f"Measure from {begin} to the end of the tail{along}."
