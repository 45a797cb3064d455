"""What a remedy would mean, in a sentence or two: its length, its chance, and the cord that it takes or saves."""

from __future__ import annotations

from companion.core.plan.plan import Plan
from companion.core.remedies.remedy import Remedy
from companion.core.values.show_lengths import display_unit, show, show_plus_minus
from companion.core.values.text import capitalised, percent, sentences

WORTH_TELLING_MM = 1.0
LEAST_RISK_TOLD = 0.01


def outcome_words(plan: Plan, remedy: Remedy) -> str:
    """ "8 ± 3/16 in finished. 84 % within tolerance. Takes 14 mm more cord a layer." """
    finished = show_plus_minus(remedy.finished_mm, remedy.half95_mm, display_unit(plan.unit))
    return sentences(f"{finished} finished.", effect_words(plan, remedy))


def effect_words(plan: Plan, remedy: Remedy) -> str:
    """ "84 % within tolerance. Takes 14 mm more cord a layer." """
    p, risk = remedy.p_in_tolerance, remedy.p_run_out
    runs_out = not remedy.join and risk > max(plan.risk, LEAST_RISK_TOLD)
    text = sentences(
        "" if p is None else f"{percent(p)} within tolerance.",
        _cord(plan, remedy),
        f"{percent(risk)} that the cord runs out." if runs_out else "",
    )
    return capitalised(text)


def _cord(plan: Plan, remedy: Remedy) -> str:
    unit = display_unit(plan.unit)
    if remedy.join:
        return "The cord then reaches."
    if remedy.cord_mm >= WORTH_TELLING_MM:
        return f"Takes {show(remedy.cord_mm, unit)} more cord a layer."
    if remedy.cord_mm <= -WORTH_TELLING_MM:
        return f"Saves {show(-remedy.cord_mm, unit)} of cord a layer."
    return ""
