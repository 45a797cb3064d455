"""What the ruler should say of the strand, or of the leftover cord."""

from __future__ import annotations

from companion.core.journal.events import ReadingKind
from companion.core.plan.plan import Plan
from companion.core.values.text import capitalised


def expected_words(plan: Plan, kind: ReadingKind, shown: str, when: str = "") -> str:
    """What the ruler should say, a sentence. `shown`: the length, with its unit; `when`: said before it, such as "after
    step 6"."""
    before = f"{when} the" if when else "the"
    if kind == "strand":
        return capitalised(f"{before} strand should measure {shown}.")
    each = " each" if plan.cord.layers > 1 else ""
    return capitalised(f"{before} leftover cord should measure {shown}{each}, tail included.")
