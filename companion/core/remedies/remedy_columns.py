"""The ways out side by side: for each the length it gives, its chance, the cord it takes, and what would then be left
to make."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.remedies.remedy import Remedy
from companion.core.remedies.remedy_words import (
    AFRESH,
    LEAST_RISK_TOLD,
    SHORT_TO_HOLD_TOLD,
    WORTH_TELLING_MM,
)
from companion.core.values.design import Element
from companion.core.values.measures.show_lengths import display_unit, show, show_plus_minus
from companion.core.values.text import percent, sentences


class Columns(Struct, frozen=True):
    """What stands in each column; `more`: what has no column, "" for nothing."""

    finishes: str
    chance: str
    cord: str
    more: str = ""


def headings(plan: Plan) -> Columns:
    """What the columns are called."""
    chance = "" if plan.target_mm is None else "in tolerance"
    return Columns("finishes at", chance, "each cord" if plan.cord.layers > 1 else "cord")


def columns_of(plan: Plan, remedy: Remedy) -> Columns:
    """One way out, in columns."""
    if remedy.afresh:
        return Columns("", "", "", AFRESH)
    unit, p, risk = display_unit(plan.unit), remedy.p_in_tolerance, remedy.p_run_out
    return Columns(
        show_plus_minus(remedy.finished_mm, remedy.half95_mm, unit),
        "" if p is None else percent(p),
        _cord(plan, remedy),
        sentences(
            f"{percent(risk)} chance of running out of cord." if risk > max(plan.risk, LEAST_RISK_TOLD) else "",
            "It leaves little cord to hold." if remedy.p_short_to_hold > SHORT_TO_HOLD_TOLD else "",
        ),
    )


def _cord(plan: Plan, remedy: Remedy) -> str:
    if remedy.join:
        return "enough cord"
    if abs(remedy.cord_mm) < WORTH_TELLING_MM:
        return "no more cord"
    return f"{show(abs(remedy.cord_mm), display_unit(plan.unit))} {'more' if remedy.cord_mm > 0 else 'less'} cord"


def rest_now(plan: Plan, piece: Piece) -> tuple[int, Sequence[Element]]:
    """The strand or side that is worked on, and what is left of it as it is planned now."""
    entry, number = plan.place(min(piece.done + 1, plan.total_steps))
    return entry, plan.strands[entry].elements[_made(plan, entry, number - 1) :]


def rest_after(plan: Plan, piece: Piece, remedy: Remedy) -> Sequence[Element]:
    """What would be left of it then."""
    entry, now = rest_now(plan, piece)
    if remedy.back_to is not None:
        at, number = plan.place(max(1, remedy.back_to))
        made = _made(plan, at, number if remedy.back_to else 0)
        return plan.strands[at].elements[made:] if at == entry else now
    return next((rest.elements for rest in remedy.rests if rest.entry == entry), now)


def _made(plan: Plan, entry: int, steps: int) -> int:
    """How many elements of an entry are made after so many of its steps."""
    return plan.strands[entry].steps[steps - 1].elements if steps else 0
