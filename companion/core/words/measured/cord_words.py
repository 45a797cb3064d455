"""Whether there is enough cord, in words, and what helps where it is short."""

from __future__ import annotations

from companion.core.forecast.cord_budget import closing_step
from companion.core.forecast.outlook import CordVerdict, Outlook
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import percent, sentences
from companion.core.words.notices import Notice
from companion.core.words.step_words import entry_step_name

SHORTER = ("cut shorter", "cord shortened")
LIKELIER_THAN_NOT = 0.5
# The chances of an alarm in words, each up to so much.
CHANCES = ((0.71, "2 in 3"), (0.82, "3 in 4"), (0.95, "9 in 10"))
VERDICTS: dict[CordVerdict, str] = {
    "enough": "enough", "short to hold": "short to hold", "scant": "tight", "runs out": "will run out",
}  # fmt: skip
TO_HOLD = "Go on with tweezers: they hold a short end, and a needle draws it through."


def cord_line(plan: Plan, outlook: Outlook) -> Notice:
    """Whether there is enough cord: that it ends before the last knot, and near which bead; or that it reaches, but is
    short to hold or to close with; never both. Nothing once the closure is made: what is left to do takes no cord."""
    if cord_is_done(plan, outlook):
        return Notice("quiet", "")
    number = outlook.worst_cord
    cord = outlook.entries[number].cord
    if cord.verdict == "enough":
        again = _read_again(plan, outlook)
        return Notice("watch" if again else "quiet", "Enough cord.", action=again)
    which = f" for {plan.strands[number].in_a_sentence}" if len(plan.strands) > 1 else ""
    cut = next((fault for fault in outlook.faults if fault.kind in SHORTER and fault.entry == number), None)
    detail = sentences(
        "It seems shorter than it should be." if cut and cut.p > LIKELIER_THAN_NOT else "",
        f"To be safe you need another {_each(plan, number, cord.short_mm)}." if cord.short_mm > 0 else "",
    )
    if cord.verdict == "short to hold":
        reaches = f"The cord{which} reaches the last knot, but little of it is left."
        return Notice("watch", reaches, detail, TO_HOLD)
    near = f", near bead {cord.bead}" if cord.bead is not None else ""
    if cord.verdict == "scant":
        headline = f"Tight: {percent(cord.p_run_out)} chance of running out of cord{which}{near}."
        return Notice("watch", headline, detail, sentences(_read_again(plan, outlook), _join_here(plan, outlook)))
    ends = f"the cord{which} ends before the last knot{near}."
    headline = f"{_chance(cord.p_run_out)} {ends}"
    return Notice("off", headline, detail, sentences(_read_again(plan, outlook), _join_here(plan, outlook)))


def cord_is_done(plan: Plan, outlook: Outlook) -> bool:
    """Whether every closure is made."""
    return all(one.done >= closing_step(plan, entry) for entry, one in enumerate(outlook.entries))


def _chance(p: float) -> str:
    return next((f"{words} that" for most, words in CHANCES if p <= most), "Almost certainly")


def _each(plan: Plan, number: int, length_mm: float) -> str:
    """So much cord, "of each cord" where there are several."""
    of = "of cord" if plan.strands[number].layers == 1 else "of each cord"
    return f"{show(length_mm, display_unit(plan.unit))} {of}"


def _read_again(plan: Plan, outlook: Outlook) -> str:
    """That the free cord is to be read again, "" where its reading is not doubted."""
    misread = next((fault for fault in outlook.faults if fault.kind == "misread"), None)
    if misread is None or misread.detail != "free" or misread.off_mm >= 0 or misread.p <= LIKELIER_THAN_NOT:
        return ""
    step = entry_step_name(plan, misread.entry, misread.to_step)
    return f"Measure the leftover cord again: your reading after step {step} is well below what was expected."


def _join_here(plan: Plan, outlook: Outlook) -> str:
    from companion.core.words.measured.join_words import join_here  # for a cord that is short

    return join_here(plan, outlook)


def cord_word(plan: Plan, outlook: Outlook, short: bool = False) -> str:
    """The cord's verdict in a word or a few: "enough", "tight", "ends near bead 21"; `short`: "ends, bead 21"."""
    cord = outlook.entries[outlook.worst_cord].cord
    if cord.verdict != "runs out" or cord.bead is None:
        return VERDICTS[cord.verdict]
    return f"ends, bead {cord.bead}" if short else f"ends near bead {cord.bead}"
