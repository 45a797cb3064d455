"""What may have gone wrong, in words: a bead miscounted, a reading misread, tension that changed."""

from __future__ import annotations

from companion.core.forecast.counting import miscount_chance
from companion.core.forecast.outlook import Fault, Outlook
from companion.core.forecast.verdicts import MISCOUNT, NAMED_FROM
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import difference, display_unit
from companion.core.values.text import capitalised, percent, sentences
from companion.core.words.notices import Notice
from companion.core.words.step_words import entry_step_name

ALSO_NAMED = 0.15  # chance from which the ruler is worth laying on again beside a count; our own choice
DOES_NOT_FIT = "A reading does not fit."

FAULT_WORDS = {
    "tension changed": "your tension changed and stayed so",
    "tension drifting": "your tension has slowly changed since you began",
    "bead missed": "a bead was missed",
    "bead too many": "a bead is too many",
    "knot missed": "a knot may be missing (hard to tell from length alone)",
    "knot too many": "there may be a knot too many (hard to tell from length alone)",
    "double as single": "a double knot was tied as a single one",
    "cut shorter": "the cord is shorter than was entered",
    "cut longer": "the cord is longer than was entered",
    "cord shortened": "the cord has been shortened since, or is caught somewhere",
    "misread": "a reading was misread, or taken with the cord slack",
}
FROM_THE_START = ("tension drifting", "cut shorter", "cut longer")  # these did not begin at a step


def misread_notice(plan: Plan, outlook: Outlook, misread: Fault, key: str = "") -> Notice:
    """The notice that a reading was probably misread. `key`: the key that measures again, in brackets, or ""."""
    step = entry_step_name(plan, misread.entry, misread.to_step)
    off = difference(misread.off_mm, display_unit(plan.unit))
    side = "too long" if misread.off_mm > 0 else "too short"
    which = "leftover cord" if misread.detail == "free" else "strand"
    miscount = miscount_chance(outlook) >= NAMED_FROM
    looks = f"looks {off} {side} ({odds(misread.p)})" if misread.p >= NAMED_FROM else "does not fit what was expected"
    return Notice(
        "watch",
        f"Your reading of the {which} after step {step} {looks}.",
        "Or you are a bead short: one more reading will tell." if miscount else "",
        f"Measure again{key}.",
    )


def recount_notice(outlook: Outlook, count: str, measured: str, key: str = "") -> Notice:
    """That a bead was probably missed or is too many; only what was `measured` where that is not likely enough to be
    told as the cause. `count`: where to count; both are sentences. `key`: what measures again, in brackets, or ""."""
    fault = next(fault for fault in outlook.faults if fault.kind in MISCOUNT)
    misread = next((fault.p for fault in outlook.faults if fault.kind == "misread"), 0.0) > ALSO_NAMED
    may = "be a bead short" if fault.kind == "bead missed" else "have a bead too many"
    action = sentences(count, f"Or the ruler slipped: measure again{key}." if misread else "")
    chance = miscount_chance(outlook)
    if chance < NAMED_FROM:
        return Notice("watch", DOES_NOT_FIT, measured, action)
    return Notice("off", f"You may {may} ({odds(chance)}).", "", action)


def _steps(plan: Plan, fault: Fault) -> str:
    first, last = (entry_step_name(plan, fault.entry, number) for number in (fault.from_step, fault.to_step))
    return f"step {first}" if first == last else f"steps {first} to {last}"


def fault_words(plan: Plan, fault: Fault) -> str:
    """A suspected fault with its chance and where it began: "A bead was missed, steps 13 to 18 (62 %)."."""
    where = "" if fault.kind in FROM_THE_START else f", {_steps(plan, fault)}"
    return f"{capitalised(FAULT_WORDS[fault.kind])}{where} ({percent(fault.p)})."


def odds(p: float) -> str:
    """A chance as makers say it: "about 4 to 1"; in per cent where it is hardly better than even."""
    if p >= 0.95:
        return "almost certainly"
    return f"about {p / (1 - p):.0f} to 1" if p >= 0.6 else f"{percent(p)} likely"
