"""All readings of a piece in words: what each was, what was expected there, whether it counts."""

from __future__ import annotations

from msgspec import Struct

from companion.core.forecast.outlook import Outlook
from companion.core.forecast.reading_list import ListedReading, ReadingState
from companion.core.forecast.verdicts import NAMED_FROM
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import difference, display_unit, show
from companion.core.values.text import sentences
from companion.core.words.measured.reading_words import set_aside_line
from companion.core.words.measured.verdict_words import NO_KEYS, Keys, in_brackets
from companion.core.words.notices import Notice
from companion.core.words.step_words import step_name

NONE_YET = "No readings yet."


class StateWords(Struct, frozen=True):
    """Whether a reading counts. `mark`: in a word or two, to stand beside it, with `why` as a sentence where it needs
    one; `said`: the same as a sentence of its own."""

    mark: str
    said: str
    why: str = ""


STATES: dict[ReadingState, StateWords] = {
    "counts": StateWords("counts", "It counts."),
    "set aside": StateWords("set aside", "It is set aside: it doesn't fit the others.", "It doesn't fit the others."),
    "taken out": StateWords("taken out by you", "You took it out."),
    "left behind": StateWords(
        "left behind", "You went back past that step, so it no longer counts.", "You went back past that step."
    ),
}


def reading_named(plan: Plan, reading: Measured) -> str:
    """A reading in a list: "strand 3 3/8 in after step 16"."""
    what = "strand" if reading.kind == "strand" else "leftover cord"
    shown = show(reading.length_mm, display_unit(plan.unit))
    if not reading.step:
        return f"{what} {shown} before the first step"
    known = reading.step <= plan.total_steps  # after a jump back there may be fewer steps
    return f"{what} {shown} after step {step_name(plan, reading.step) if known else reading.step}"


def reading_number(piece: Piece, reading: Measured) -> int:
    """The number of a reading in the list, from 1; 0 where it is not in it. Of two that are equal that very one."""
    counting = [(number, one.measured) for number, one in enumerate(piece.all_readings, start=1) if one.counts]
    found = [number for number, one in counting if one is reading] or [n for n, one in counting if one == reading]
    return found[-1] if found else 0


def taking_out(piece: Piece, reading: Measured, keys: Keys) -> str:
    """How that reading is taken out, as an order: "take it out (x)", "take reading 3 out (M, then 3)"."""
    number = reading_number(piece, reading)
    if number == max((n for n, one in enumerate(piece.all_readings, start=1) if one.counts), default=0):
        return f"take it out{in_brackets(keys, 'withdraw')}"
    return f"take reading {number} out{in_brackets(keys, 'readings', str(number))}"


def doubtful_line(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys = NO_KEYS) -> Notice | None:
    """That an older reading is likely to be wrong, and how it is taken out; None where none is. The ruler can tell no
    more of it: later ones speak against it already."""
    fault, reading = outlook.misread, outlook.doubtful
    if fault is None or reading is None or not fault.settled or fault.p < NAMED_FROM:
        return None
    side = "long" if fault.off_mm > 0 else "short"
    named = f"Reading {reading_number(piece, reading)} ({reading_named(plan, reading)})"
    looks = f"{named} looks {difference(fault.off_mm, display_unit(plan.unit))} too {side}."
    return Notice("quiet", looks, "", f"If it was a slip, {taking_out(piece, reading, keys)}.")


def doubts_lines(plan: Plan, piece: Piece, outlook: Outlook, keys: Keys = NO_KEYS) -> list[Notice]:
    """What is to be said of single readings: one that is likely to be wrong, and those that are set aside."""
    lines = (doubtful_line(plan, piece, outlook, keys), set_aside_line(plan, outlook))
    return [notice for notice in lines if notice is not None]


def expected_there(plan: Plan, listed: ListedReading) -> str:
    """What was expected there, by what, and how far off the reading was; "" where nothing can be said."""
    planned_mm, believed_mm, expected_mm = listed.planned_mm, listed.believed_mm, listed.expected_mm
    if planned_mm is None or expected_mm is None:
        return ""
    unit = display_unit(plan.unit)
    planned, shown = show(planned_mm, unit), show(expected_mm, unit)
    if believed_mm is None:
        told = f"Expected by the plan: {shown}."
    elif planned == shown:
        told = f"Expected by your earlier readings and by the plan: {shown}."
    else:
        told = f"Expected by your earlier readings: {shown} (by the plan {planned})."
    if show(listed.measured.length_mm, unit) == shown:
        return f"{told} It was as expected."
    over_mm = listed.measured.length_mm - expected_mm
    return f"{told} It was {difference(over_mm, unit)} {'more' if over_mm > 0 else 'less'}."


def reading_line(plan: Plan, listed: ListedReading, when: str) -> str:
    """All that there is to say of one, in a line: "2: strand 3 in after step 16, …. Expected …. It counts."."""
    number = "" if listed.number is None else f"{listed.number}: "
    named = f"{number}{reading_named(plan, listed.measured)}, {when}."
    return sentences(named, expected_there(plan, listed), STATES[listed.state].said)
