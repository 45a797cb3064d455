"""What a remedy would mean, in a sentence or two: its length, its chance, and the cord that it takes or saves.

The screen and the commands use the same words for a remedy; all of them are here.
"""

from __future__ import annotations

from collections.abc import Sequence

from companion.core.plan.plan import Plan
from companion.core.remedies.ranking import LEAST_CHANCE
from companion.core.remedies.remedy import Remedy
from companion.core.values.measures.show_lengths import display_unit, show, show_plus_minus
from companion.core.values.text import capitalised, percent, sentences
from companion.core.words.notices import Notice

WORTH_TELLING_MM = 1.0
LEAST_RISK_TOLD = 0.01
SHORT_TO_HOLD_TOLD = 0.25
ENOUGH = "Then there is enough cord."
AFRESH = "That means taking it apart and beginning again."


def remedy_line(plan: Plan, remedy: Remedy) -> str:
    """The change and everything that it would mean, on one line."""
    return sentences(f"{remedy.what}.", outcome_words(plan, remedy))


def chosen_notice(remedy: Remedy, undo: str) -> Notice:
    """That a way out was chosen, and what undoes it (`undo`); which one, and whether the steps change by it."""
    done = f"A cord of {remedy.cut.typed} is entered" if remedy.cut else "Noted" if remedy.advice else "Chosen"
    suit = "The remaining steps change to suit." if remedy.rests else ""
    return Notice("quiet", f"{done}; {undo} undoes it.", "" if remedy.cut else sentences(f"{remedy.what}.", suit))


def outcome_words(plan: Plan, remedy: Remedy) -> str:
    """ "84 % within tolerance. It would finish at 8 ± 3/16 in. Takes 14 mm more of each cord." """
    if remedy.afresh:
        return AFRESH
    if remedy.cut:
        return ENOUGH
    if remedy.holds:
        return "Nothing is taken apart."
    finished, p = show_plus_minus(remedy.finished_mm, remedy.half95_mm, display_unit(plan.unit)), remedy.p_in_tolerance
    chance = "" if p is None else f"{capitalised(percent(p))} within tolerance."
    return sentences(chance, f"It would finish at {finished}.", cost_words(plan, remedy))


def cost_words(plan: Plan, remedy: Remedy) -> str:
    """What it takes of the cord, and what that risks: "Takes 14 mm more of each cord." """
    risk = remedy.p_run_out
    text = sentences(
        _cord(plan, remedy),
        f"{percent(risk)} chance of running out of cord." if risk > max(plan.risk, LEAST_RISK_TOLD) else "",
        "It leaves little cord to hold." if remedy.p_short_to_hold > SHORT_TO_HOLD_TOLD else "",
    )
    return capitalised(text)


def joins_alone(found: Sequence[Remedy]) -> bool:
    """Whether a join is all that there is, but for ways to hold short tails: neither changes the length."""
    return any(one.join for one in found) and all(one.join or one.holds for one in found)


def best_is_poor(found: Sequence[Remedy]) -> str:
    """A sentence saying that none of these is likely to bring the length right; "" if one is."""
    chances = [one.p_in_tolerance for one in found if one.p_in_tolerance is not None and not one.leaves_length]
    if not chances or max(chances) >= LEAST_CHANCE:
        return ""
    return "Nothing here has more than 1 chance in 5 of coming out within tolerance. There is nothing better."


def _cord(plan: Plan, remedy: Remedy) -> str:
    unit = display_unit(plan.unit)
    each = "each cord" if plan.cord.layers > 1 else "cord"
    if remedy.join:
        return ENOUGH
    if remedy.cord_mm >= WORTH_TELLING_MM:
        more = "more of each cord" if plan.cord.layers > 1 else "more cord"
        return f"Takes {show(remedy.cord_mm, unit)} {more}."
    if remedy.cord_mm <= -WORTH_TELLING_MM:
        return f"Saves {show(-remedy.cord_mm, unit)} of {each}."
    return ""
