"""Whether the cord in hand will reach, in words."""

from __future__ import annotations

from companion.core.forecast.outlook import Outlook
from companion.core.plan.plan import Plan
from companion.core.values.show_lengths import display_unit, show
from companion.core.values.text import percent, sentences
from companion.core.words.notices import Notice
from companion.core.words.step_words import entry_step_name

SHORTER = ("cut shorter", "cord shortened")
LIKELIER_THAN_NOT = 0.5


def cord_line(plan: Plan, outlook: Outlook) -> Notice:
    """Whether the cord will reach, with the chance that it does not and where it would end."""
    number = outlook.worst_cord
    cord = outlook.entries[number].cord
    if cord.verdict == "enough":
        again = _read_again(plan, outlook)
        return Notice("watch" if again else "quiet", "Enough cord.", action=again)
    which = f" for {plan.strands[number].label}" if len(plan.strands) > 1 else ""
    chance = f"{percent(cord.p_run_out)} that the cord{which} runs out."
    missing = show(cord.short_mm, display_unit(plan.unit))
    cut = next((fault for fault in outlook.faults if fault.kind in SHORTER and fault.entry == number), None)
    detail = sentences(
        f"To be sure of it, {missing} a layer is missing." if cord.short_mm > 0 else "",
        "It seems shorter than it should be." if cut and cut.p > LIKELIER_THAN_NOT else "",
    )
    if cord.verdict == "scant":
        return Notice("watch", f"Scant: {chance}", detail, _read_again(plan, outlook))
    near = f" near step {entry_step_name(plan, number, cord.step)}" if cord.step is not None else ""
    return Notice("off", f"Runs out{near}: {chance}", detail, _read_again(plan, outlook))


def _read_again(plan: Plan, outlook: Outlook) -> str:
    """That the free cord is to be read again, "" where its reading is not doubted."""
    misread = next((fault for fault in outlook.faults if fault.kind == "misread"), None)
    if misread is None or misread.detail != "free" or misread.off_mm >= 0 or misread.p <= LIKELIER_THAN_NOT:
        return ""
    step = entry_step_name(plan, misread.entry, misread.to_step)
    return f"Measure the leftover cord again: your reading after step {step} is well below what was expected."


def cord_word(plan: Plan, outlook: Outlook, short: bool = False) -> str:
    """The cord's verdict in a word or a few: "enough", "scant", "runs out near step 31"; `short`: "out near 31"."""
    number = outlook.worst_cord
    cord = outlook.entries[number].cord
    if cord.verdict != "runs out" or cord.step is None:
        return cord.verdict
    return f"{'out near' if short else 'runs out near step'} {entry_step_name(plan, number, cord.step)}"
