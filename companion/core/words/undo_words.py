"""What was undone or done again, and where the piece then stands."""

from __future__ import annotations

from companion.core.journal.events import (
    Abandoned,
    Changed,
    Confirmed,
    CutEntered,
    Event,
    Finished,
    Joined,
    Jumped,
    Measured,
    PutBack,
    Recounted,
    Renamed,
    TakenOut,
    TakenUp,
    Withdrawn,
)
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import capitalised
from companion.core.words.step_words import step_name

ALWAYS_NAMED_SO: dict[type[Event] | type[None], str] = {
    Withdrawn: "taking out a reading",
    Changed: "your choice for the rest of the piece",
    Finished: "the end of the piece",
    Abandoned: "putting the piece away",
    TakenUp: "taking the piece up again",
}


def act_words(plan: Plan, act: Event | None) -> str:
    """An act as a sentence names it: "step 12", "your reading of 2 9/16 in after step 9"."""
    unit = display_unit(plan.unit)
    match act:
        case Confirmed(step=step):
            return f"step {step_name(plan, step)}"
        case Measured(kind=kind, step=step, length_mm=length_mm):
            what = "leftover-cord reading" if kind == "free" else "reading"
            return f"your {what} of {show(length_mm, unit)} after step {_place(plan, step)}"
        case TakenOut(reading=reading):
            return f"taking out {act_words(plan, reading)}"
        case PutBack(reading=reading):
            return f"putting back {act_words(plan, reading)}"
        case Recounted(step=step):
            return f"the count of beads up to step {_place(plan, step)}"
        case Jumped(to=to, moved=moved, counted=counted):
            set_right = moved or counted
            return f"{'setting the screen' if set_right else 'the jump'} to step {_place(plan, to)}"
        case Joined(added_mm=added_mm):
            return f"the {show(added_mm, unit)} of new cord"
        case CutEntered(length_mm=length_mm):
            return f"the cut of {show(length_mm, unit)}"
        case Renamed(name=name, was=was):
            return f"the new name ({was} became {name})"
    return ALWAYS_NAMED_SO.get(type(act), "your note")


def reading_turned(plan: Plan, act: TakenOut | PutBack) -> str:
    """What was done to a reading: "Your reading of 3 3/8 in after step 16 is taken out."."""
    now = "is taken out" if isinstance(act, TakenOut) else "counts again"
    return f"{capitalised(act_words(plan, act.reading))} {now}."


def _place(plan: Plan, step: int) -> str:
    return step_name(plan, step) if 1 <= step <= plan.total_steps else "0"


def undone_words(plan: Plan, act: Event | None, piece: Piece, redo: str = "U") -> str:
    """What was undone, and where the piece stands now; `redo`: what puts it back."""
    return f"Undone: {act_words(plan, act)}. {_stands(piece)} ({redo} redoes it)"


def redone_words(plan: Plan, piece: Piece) -> str:
    """What was done again, and where the piece stands now."""
    return f"Redone: {act_words(plan, piece.act)}. {_stands(piece)}"


def _stands(piece: Piece) -> str:
    return f"{piece.done} of {piece.total_steps} steps are done."
