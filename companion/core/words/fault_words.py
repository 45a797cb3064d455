"""What may have gone wrong, in words: a bead miscounted, a reading misread, tension that changed."""

from __future__ import annotations

from companion.core.forecast.outlook import Fault, Outlook
from companion.core.forecast.verdicts import MISCOUNT
from companion.core.plan.plan import Plan
from companion.core.values.show_lengths import difference, display_unit
from companion.core.values.text import capitalised, percent, sentences
from companion.core.words.notices import Notice
from companion.core.words.step_words import entry_step_name

ALSO_NAMED = 0.15  # chance at which a second thing that may be wrong is named beside the first; our own choice

FAULT_WORDS = {
    "tension changed": "your tension changed and stayed so",
    "tension drifting": "your tension has been drifting since the first knots",
    "bead missed": "a bead was missed",
    "bead too many": "a bead is too many",
    "knot missed": "a knot was missed, which lengths alone can hardly tell",
    "knot too many": "a knot is too many, which lengths alone can hardly tell",
    "double as single": "a double knot was tied as a single one",
    "cut shorter": "the cord is shorter than was entered",
    "cut longer": "the cord is longer than was entered",
    "cord shortened": "the cord has been shortened since, or is caught somewhere",
    "misread": "a reading was misread, or taken slack",
}
FROM_THE_START = ("tension drifting", "cut shorter", "cut longer")  # these did not begin at a step


def misread_notice(plan: Plan, outlook: Outlook, misread: Fault, key: str = "") -> Notice:
    """The notice that a reading was probably misread. `key`: the key that measures again, in brackets, or ""."""
    step = entry_step_name(plan, misread.entry, misread.to_step)
    off = difference(misread.off_mm, display_unit(plan.unit))
    side = "too much" if misread.off_mm > 0 else "too little"
    which = "free-cord reading" if misread.detail == "free" else "strand reading"
    miscount = sum(fault.p for fault in outlook.faults if fault.kind in MISCOUNT) > ALSO_NAMED
    return Notice(
        "watch",
        f"Measure again ({odds(misread.p)}){key}.",
        f"The {which} after step {step} may be {off} {side}.",
        "Or a bead is lost: one more reading tells." if miscount else "",
    )


def recount_notice(plan: Plan, outlook: Outlook, key: str = "") -> Notice:
    """The notice that a bead was probably missed or is too many, and where to count. `key`: the key that takes the
    count, in brackets, or ""."""
    miscounts = [fault for fault in outlook.faults if fault.kind in MISCOUNT]
    fault = miscounts[0]
    first, last = fault.from_step, fault.to_step
    beads = sum(len(step.beads) for step in plan.strands[fault.entry].steps[first - 1 : last])
    misread = next((fault.p for fault in outlook.faults if fault.kind == "misread"), 0.0) > ALSO_NAMED
    return Notice(
        "off",
        f"Recount ({odds(sum(one.p for one in miscounts))}){key}.",
        f"A bead {'fewer' if fault.kind == 'bead missed' else 'more'} than the count says.",
        sentences(
            f"Steps {entry_step_name(plan, fault.entry, first)} to {last} should hold {beads} beads: count them.",
            "Or the ruler slipped: lay it on again." if misread else "",
        ),
    )


def fault_words(plan: Plan, fault: Fault) -> str:
    """A suspected fault with its chance and where it began: "A bead was missed, steps 13 to 18 (62 %)."."""
    first, last = entry_step_name(plan, fault.entry, fault.from_step), fault.to_step
    if fault.kind in FROM_THE_START:
        where = ""
    else:
        where = f", step {first}" if fault.from_step == last else f", steps {first} to {last}"
    return f"{capitalised(FAULT_WORDS[fault.kind])}{where} ({percent(fault.p)})."


def odds(p: float) -> str:
    """A chance as makers say it: "4 to 1"; in per cent where it is hardly better than even."""
    if p >= 0.95:
        return "over 20 to 1"
    return f"{p / (1 - p):.0f} to 1" if p >= 0.6 else f"{percent(p)} likely"
