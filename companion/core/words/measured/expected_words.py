"""What the ruler should say of the strand, or of the leftover cord."""

from __future__ import annotations

from companion.core.journal.events import ReadingKind
from companion.core.plan.plan import Plan
from companion.core.values.design import Bead
from companion.core.values.text import capitalised


def expected_words(plan: Plan, kind: ReadingKind, shown: str, when: str = "") -> str:
    """What the ruler should say, a sentence. `shown`: the length, with its unit; `when`: said before it, such as "after
    step 6"."""
    before = f"{when} the" if when else "the"
    if kind == "strand":
        return capitalised(f"{before} strand should measure {shown}.")
    each = " each" if plan.cord.layers > 1 else ""
    return capitalised(f"{before} leftover cord should measure {shown}{each}, tail included.")


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
