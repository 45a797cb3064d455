"""How and where new cord is joined on, in words."""

from __future__ import annotations

from companion.core.cord.cord import HIDES
from companion.core.forecast.join_place import can_be_joined, cords_in_a_join, join_place
from companion.core.forecast.outlook import Outlook
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import capitalised, count_word, sentences, uncapitalised
from companion.core.words.step_words import entry_step_name

REACHES = "The cord reaches the last knot as it is."
HOW_TO_JOIN = 'How it is done: `tallycord knots "joining a new cord"`, or l on the bench.'
SHOWS = "No bead hides this joint. Tie it close to a knot, put a drop of glue on it, and tug at it before you go on."
SIDE_BY_SIDE = "Let the old and the new lie in it side by side, with ends to spare, and go on with the new."


def join_advice(plan: Plan, outlook: Outlook) -> str:
    """What a maker is told who would join new cord on: whether she needs to, where it can be done, and how."""
    cord = outlook.entries[outlook.worst_cord].cord
    reaches = REACHES if cord.verdict in ("enough", "short to hold") else ""
    if plan.cord.material in HIDES:
        return sentences(reaches, f"{join_words(plan, outlook)}.", HOW_TO_JOIN)
    if join_place(plan, outlook) is None and reaches:
        cords = count_word(cords_in_a_join(plan))
        return sentences(reaches, f"New cord could not be hidden: no bead still to come takes {cords} cords.")
    inside = SIDE_BY_SIDE if join_place(plan, outlook) else ""
    return sentences(reaches, f"{join_words(plan, outlook)}.", inside, HOW_TO_JOIN if inside else "")


def joint_words(plan: Plan, outlook: Outlook) -> str:
    """What to know of a joint that no bead hides; "" where one does, and for hide, which is joined openly. `outlook`:
    of the piece before it."""
    return "" if plan.cord.material in HIDES or join_place(plan, outlook) else SHOWS


def more_cord(plan: Plan, added_mm: float) -> str:
    """That new cord is on, and how much."""
    of = "of cord" if plan.cord.layers == 1 else "of each cord"
    return f"New cord is on: {show(added_mm, display_unit(plan.unit))} {of} more."


def join_words(plan: Plan, outlook: Outlook) -> str:
    """How new cord comes on, without a full stop: inside which bead; or that a fresh cord is the way."""
    if plan.cord.material in HIDES:
        return (
            f"{capitalised(plan.cord.material)} is too thick to join inside a bead: glue or crimp the joint, or start "
            "afresh with a longer cord"
        )
    place = join_place(plan, outlook)
    cords = cords_in_a_join(plan)
    if place is None:
        return f"No bead still to come takes {count_word(cords).lower()} cords: start afresh with a longer cord"
    inside = f"{plan.bead(place.bead).name} of step {entry_step_name(plan, place.entry, place.step)}"
    if place.hole_known:
        return f"Join it inside the {uncapitalised(inside)}: its hole takes {count_word(cords).lower()} cords"
    return f"Join it inside the {uncapitalised(inside)}, if {count_word(cords).lower()} cords go through: try it first"


def join_here(plan: Plan, outlook: Outlook) -> str:
    """Said again when the step comes up in which new cord can best be joined on."""
    if plan.cord.material in HIDES or not can_be_joined(plan, outlook):
        return ""
    place = join_place(plan, outlook)
    if place is None or place.step != outlook.entries[place.entry].done + 1:
        return ""
    return f"Join the new cord in this step, inside the {uncapitalised(plan.bead(place.bead).name)}."
