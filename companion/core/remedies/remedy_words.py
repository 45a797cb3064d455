"""What a remedy would mean, in a sentence or two: its chance, and the cord that it takes or saves."""

from __future__ import annotations

from companion.core.plan.plan import Plan
from companion.core.remedies.remedy import Remedy
from companion.core.values.show_lengths import display_unit, show, show_plus_minus
from companion.core.words.verdict_words import percent

WORTH_TELLING_MM = 1.0


def figures(plan: Plan, remedy: Remedy) -> str:
    """ "8 ± 3/16 in finished. 84 % within tolerance. Takes 14 mm more cord a layer." """
    finished = show_plus_minus(remedy.finished_mm, remedy.half95_mm, display_unit(plan.unit))
    return f"{finished} finished. {meaning(plan, remedy)}"


def meaning(plan: Plan, remedy: Remedy) -> str:
    """ "84 % within tolerance. Takes 14 mm more cord a layer." """
    said = []
    if remedy.p_in_tolerance is not None:
        said.append(f"{percent(remedy.p_in_tolerance)} within tolerance.")
    unit = display_unit(plan.unit)
    if remedy.join:
        said.append("The cord then reaches.")
    elif remedy.cord_mm >= WORTH_TELLING_MM:
        said.append(f"Takes {show(remedy.cord_mm, unit)} more cord a layer.")
    elif remedy.cord_mm <= -WORTH_TELLING_MM:
        said.append(f"Saves {show(-remedy.cord_mm, unit)} of cord a layer.")
    if not remedy.join and remedy.p_run_out > max(plan.risk, 0.01):
        said.append(f"{percent(remedy.p_run_out)} that the cord runs out.")
    text = " ".join(said)
    return text[:1].upper() + text[1:]
