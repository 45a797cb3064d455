"""How far off a length is, and why, as far as it is known; a reading that was too much to be the ruler."""

from __future__ import annotations

from companion.core.forecast.cord_budget import last_string_step
from companion.core.forecast.outlook import Fault, Outlook, ReadingCheck
from companion.core.forecast.verdicts import NAMED_FROM, on_plan_between, worth_telling_mm
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import (
    difference,
    difference_as_shown,
    display_unit,
    show,
    show_plus_minus,
)
from companion.core.values.measures.units import UNNOTICED_MM
from companion.core.values.text import share
from companion.core.words.step_words import entry_step_name, step_name

KNOTS_OFF = (0.03, 0.5)  # knots that differ from the cord's figures by such a share are the reason; our own choice


# -- how far off ------------------------------------------------------------------------------------------------------


def is_over(plan: Plan, outlook: Outlook) -> bool:
    """Whether it would come out longer than the target. Without a target it never does."""
    return _off_mm(plan, outlook) > 0


def is_on_length(plan: Plan, outlook: Outlook) -> bool:
    """Whether it is likeliest to come out at a length that needs no putting right. Without a target it always is."""
    between = on_plan_between(plan)
    return between is None or between[0] <= outlook.finished.mean_mm <= between[1]


def is_worth_telling(plan: Plan, piece: Piece, outlook: Outlook) -> bool:
    """Whether it would miss its target by enough to want it nearer, be it within tolerance."""
    return abs(_off_mm(plan, outlook)) >= worth_telling_mm(plan, piece)


def well_word(plan: Plan, outlook: Outlook) -> str:
    """What is said of a length that is on plan: a design that misses its target does so still."""
    tolerance_mm = plan.tolerance_mm or 0.0
    planned_off_mm = 0.0 if plan.target_mm is None else plan.finished_length_mm - plan.target_mm
    within = min(abs(planned_off_mm), abs(_off_mm(plan, outlook))) <= tolerance_mm + UNNOTICED_MM
    return "On length" if within else "As planned"


def course_words(plan: Plan, outlook: Outlook) -> str:
    """ "On course for 188 ± 4 mm, 12 mm under your 200 mm." """
    assert plan.target_mm is not None
    unit, off_mm = display_unit(plan.unit), _off_mm(plan, outlook)
    shown = show_plus_minus(outlook.finished.mean_mm, outlook.finished.half95_mm, unit)
    side = "over" if off_mm > 0 else "under"
    allowed = ""
    if outlook.verdict == "on plan" and plan.tolerance_mm is not None and abs(off_mm) <= plan.tolerance_mm:
        allowed = f", within the {show(plan.tolerance_mm, unit)} you allow"
    off = difference_as_shown(outlook.finished.mean_mm, plan.target_mm, unit)
    return f"On course for {shown}, {off} {side} your {show(plan.target_mm, unit)}{allowed}."


def _off_mm(plan: Plan, outlook: Outlook) -> float:
    return 0.0 if plan.target_mm is None else outlook.finished.mean_mm - plan.target_mm


def finishes_at(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """The finished length with its uncertainty. Until something is read or counted it is the plan's own: the same
    number as was said before the work began."""
    learnt = piece.readings or piece.counted
    mean_mm = outlook.finished.mean_mm if learnt else plan.finished_length_mm
    return show_plus_minus(mean_mm, outlook.finished.half95_mm, display_unit(plan.unit))


def settling_words(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """Why it is to be a little shorter than it is now, once all is strung and no clasp makes it longer; else ""."""
    if len(plan.longest) > 1 or not piece.readings:
        return ""
    entry, unit = plan.longest[0], display_unit(plan.unit)
    now = outlook.entries[entry]
    strung = now.done >= last_string_step(plan, entry)
    shorter = outlook.finished.mean_mm < now.strand_now.mean_mm
    differs = show(outlook.finished.mean_mm, unit) != show(now.strand_now.mean_mm, unit)
    return "It will be a little shorter than now: knots settle." if strung and shorter and differs else ""


def surprise_words(plan: Plan, check: ReadingCheck) -> str:
    """How far a reading was from what was expected, and whether that was too much to be the ruler."""
    unit, reading = display_unit(plan.unit), check.reading
    than = f"{difference(check.off_mm, unit)} {'more' if check.off_mm > 0 else 'less'} than expected"
    after = f"after step {step_name(plan, reading.step)}"
    told = "" if check.is_usual else ": too much to be the ruler"
    return f"Your {show(reading.length_mm, unit)} {after} is {than}{told}."


# -- why --------------------------------------------------------------------------------------------------------------


def known_reason(plan: Plan, piece: Piece, outlook: Outlook) -> str:
    """The likeliest reason, "" where none is known: beads that were counted, then tension that changed, then knots that
    differ from the cord's figures, then the plan itself."""
    over = is_over(plan, outlook)
    fault = outlook.faults[0] if outlook.faults else None
    return (
        counted_words(piece, over)
        or (_tension(plan, fault) if fault else "")
        or _knots(plan, outlook, over)
        or _plan_itself(plan, over)
    )


def counted_words(piece: Piece, over: bool) -> str:
    """That beads are missing or too many, as they were counted; "" where that explains nothing."""
    counted = sum(one.beads for one in piece.counted)
    if not counted or (counted > 0) != over:
        return ""
    beads = "a bead is" if abs(counted) == 1 else f"{abs(counted)} beads are"
    return f"As you counted, {beads} {'too many' if counted > 0 else 'missing'}."


def _tension(plan: Plan, fault: Fault) -> str:
    if fault.p < NAMED_FROM:
        return ""
    if fault.kind == "tension changed":
        step = entry_step_name(plan, fault.entry, fault.from_step)
        return f"Most likely your tension has changed since about step {step}."
    drifting = fault.kind == "tension drifting"
    return "Most likely your tension has slowly changed since you began." if drifting else ""


def _knots(plan: Plan, outlook: Outlook, over: bool) -> str:
    ratio = outlook.knot_ratio
    off = abs(ratio.mean_mm - 1) if ratio else 0.0
    sign = ratio is not None and (ratio.mean_mm > 1) == over  # looser knots make nothing shorter
    if not (ratio and sign and KNOTS_OFF[0] <= off <= KNOTS_OFF[1] and off >= ratio.sd_mm):
        return ""
    run = "looser" if ratio.mean_mm > 1 else "tighter"
    return f"Most likely your knots are {share(off)} {run} than the {_whose(plan)}."


def _whose(plan: Plan) -> str:
    """Who says what a knot takes."""
    return "cord card says" if plan.cord.card else "plan reckons with"


def _plan_itself(plan: Plan, over: bool) -> str:
    assert plan.target_mm is not None
    planned_mm = plan.finished_length_mm
    if (planned_mm > plan.target_mm) != over or abs(planned_mm - plan.target_mm) <= UNNOTICED_MM:
        return ""
    return f"The plan itself comes to {show(planned_mm, display_unit(plan.unit))}."
