"""Whether the piece will come out at its length, in a few sentences with the number that matters."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion.core.forecast.outlook import Fault, Outlook
from companion.core.forecast.verdicts import MISCOUNT
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import difference, display_unit, show, show_plus_minus
from companion.core.values.measures.units import UNNOTICED_MM
from companion.core.values.text import sentences, share
from companion.core.words.notices import Notice
from companion.core.words.step_words import entry_step_name

# What the maker can do about a verdict. Where a key does it, the sentence names the key in brackets.
Answer = Literal["measure", "measure cord", "recount", "measure again", "measure cord again", "remedies"]
Keys = Mapping[Answer, str]
NO_KEYS: Keys = {}  # of a command line

MISCOUNT_NAMED = 0.05  # chance of a miscount at which it is named among the reasons; our own choice
TENSION_NAMED = 0.3  # chance of a change in tension at which it is the reason; our own choice
KNOTS_OFF = (0.03, 0.5)  # knots that differ from the cord's figures by such a share are the reason; our own choice


def verdict_line(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys = NO_KEYS) -> Notice:
    """What the forecast says of the length, and what to do about it; sentences name those of the `keys` that do it."""
    verdict = outlook.verdict
    if verdict in ("recount", "measure again"):
        return _fault_notice(plan, outlook, keys)
    action = _ruler_action(plan, piece, outlook, keys)
    if verdict == "no target":
        return Notice("quiet", "No length is set.", action=action)
    if verdict == "on plan":
        return Notice("quiet", "On length.", action=action)
    forecast = _forecast(plan, outlook)
    if verdict == "watch":
        return Notice("watch", f"Keep an eye on it{_key(keys, 'remedies')}.", forecast, "Measure again soon.")
    detail = sentences(forecast, _reason(plan, piece, outlook))
    too = "Too long" if _is_over(plan, outlook) else "Too short"
    if ruler_is_due(piece, outlook):
        return Notice("off", f"{too}.", detail, _ruler_now(keys))
    return Notice("off", f"{too}{_key(keys, 'remedies')}.", detail)


def _fault_notice(plan: Plan, outlook: Outlook, keys: Keys) -> Notice:
    from companion.core.words.measured.fault_words import misread_notice, recount_notice  # few pieces need them

    misread = next((fault for fault in outlook.faults if fault.kind == "misread"), None)
    if outlook.verdict == "recount":
        return recount_notice(plan, outlook, _key(keys, "recount"))
    key = _key(keys, "measure cord again" if outlook.doubted == "free" else "measure again")
    return misread_notice(plan, outlook, misread, key) if misread else recount_notice(plan, outlook, key)


def _key(keys: Keys, answer: Answer) -> str:
    return f" ({keys[answer]})" if answer in keys else ""


# -- how far off, and why ---------------------------------------------------------------------------------------------


def _forecast(plan: Plan, outlook: Outlook) -> str:
    assert plan.target_mm is not None
    unit, finished = display_unit(plan.unit), outlook.finished
    shown = show_plus_minus(finished.mean_mm, finished.half95_mm, unit)
    off_mm = finished.mean_mm - plan.target_mm
    side = "over" if off_mm > 0 else "under"
    return f"On course for {shown}, {difference(off_mm, unit)} {side} your {show(plan.target_mm, unit)}."


def _is_over(plan: Plan, outlook: Outlook) -> bool:
    assert plan.target_mm is not None
    return outlook.finished.mean_mm > plan.target_mm


def _reason(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """The likeliest reason, "" where none is known: beads that were counted, then tension that changed, then knots that
    differ from the cord's figures, then the plan itself. A miscount is named only where one is suspected."""
    over = _is_over(plan, outlook)
    fault = outlook.faults[0] if outlook.faults else None
    return (
        _counted(piece, over)
        or (_tension(plan, fault) if fault else "")
        or _knots_or_miscount(plan, outlook, "a bead is too many" if over else "a bead is missing")
    )


def _counted(piece: Piece, over: bool) -> str:
    counted = sum(one.beads for one in piece.counted)
    if not counted or (counted > 0) != over:
        return ""
    beads = "a bead is" if abs(counted) == 1 else f"{abs(counted)} beads are"
    return f"As you counted, {beads} {'too many' if counted > 0 else 'missing'}."


def _tension(plan: Plan, fault: Fault) -> str:
    if fault.p <= TENSION_NAMED:
        return ""
    if fault.kind == "tension changed":
        step = entry_step_name(plan, fault.entry, fault.from_step)
        return f"Most likely your tension has changed since about step {step}."
    drifting = fault.kind == "tension drifting"
    return "Most likely your tension has slowly changed since you began." if drifting else ""


def _knots_or_miscount(plan: Plan, outlook: Outlook, bead: str) -> str:
    suspected = sum(fault.p for fault in outlook.faults if fault.kind in MISCOUNT) > MISCOUNT_NAMED
    ratio = outlook.knot_ratio
    off = abs(ratio.mean_mm - 1) if ratio else 0.0
    sign = ratio is not None and (ratio.mean_mm > 1) == _is_over(plan, outlook)  # looser knots make nothing shorter
    if ratio and sign and KNOTS_OFF[0] <= off <= KNOTS_OFF[1] and off >= ratio.sd_mm:
        run = "looser" if ratio.mean_mm > 1 else "tighter"
        knots = f"Most likely your knots are {share(off)} {run} than the {_whose(plan)}."
        return sentences(knots, f"Or {bead}: count them." if suspected else "")
    if suspected:
        return f"Perhaps {bead}: count them."
    return _plan_itself(plan, _is_over(plan, outlook))


def _whose(plan: Plan) -> str:
    """Who says what a knot takes."""
    return "cord card says" if plan.cord.card else "plan reckons with"


def _plan_itself(plan: Plan, over: bool) -> str:
    assert plan.target_mm is not None
    planned_mm = plan.finished_length_mm
    if (planned_mm > plan.target_mm) != over or abs(planned_mm - plan.target_mm) <= UNNOTICED_MM:
        return ""
    return f"The plan itself comes to {show(planned_mm, display_unit(plan.unit))}."


# -- the ruler --------------------------------------------------------------------------------------------------------


def ruler_is_due(piece: Piece, outlook: Outlook) -> bool:
    """Whether a reading is worth taking now."""
    return outlook.next_reading_step is not None and outlook.next_reading_step <= piece.done


def _ruler_now(keys: Keys) -> str:
    return f"Measure the strand now{_key(keys, 'measure')}."


def _ruler_action(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys) -> str:
    """When to measure next, "" for no more.

    The free cord is to be measured once as well: cords run out mostly because knots take more than the cord's figures
    say, and one early reading shows it.
    """
    if not ruler_is_due(piece, outlook):
        step = outlook.next_reading_step
        return "" if step is None else f"Measure the strand after step {step}."
    cord = (
        ""
        if _cord_checked(plan, piece)
        else f"Measure the leftover cord too{_key(keys, 'measure cord')}. Once is enough."
    )
    return sentences(_ruler_now(keys), cord)


def _cord_checked(plan: Plan, piece: Piece) -> bool:
    """Whether the free cord of the entry in hand was measured since its first element."""
    entry = plan.place(min(piece.done + 1, plan.total_steps))[0]
    places = (plan.place(reading.step) for reading in piece.readings if reading.kind == "free" and reading.step)
    return any(place == entry and plan.strands[entry].steps[number - 1].elements for place, number in places)
