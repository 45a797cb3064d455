"""Coming back to a piece: what was done last, what to count again, what the ruler should say."""

from __future__ import annotations

from msgspec import Struct

from companion.core.forecast.observations import ruler_mm
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show, show_both
from companion.core.values.text import sentences, uncapitalised
from companion.core.words.measured.count_back import count_back
from companion.core.words.measured.reading_words import where_from
from companion.core.words.step_words import step_sentence


class Recap(Struct, frozen=True):
    """Sentences for the maker. `recount` and `length` are empty before the first bead."""

    last: str
    recount: str
    length: str
    next: str

    @property
    def lines(self) -> tuple[str, ...]:
        """The sentences that are not empty, in order."""
        return tuple(filter(None, (self.last, self.recount, self.length, self.next)))


def recap(plan: Plan, piece: Piece, strand_mm: float | None = None, answer: str = "") -> Recap:
    """Where a piece stands, and how to make sure of it. `strand_mm`: what the strand is expected to measure by the
    readings so far; None: what the plan says. `answer`: what is to be done where the beads are another number."""
    if piece.done == 0:
        return Recap("No step is done yet.", "", "", _next(plan, piece))
    entry, number = plan.place(piece.done)
    strand = plan.strands[entry]
    made = strand.steps[number - 1].elements
    last, coming = _last(plan, piece), _next(plan, piece)
    if made == 0:
        return Recap(last, "", "", coming)
    count = sentences(count_back(plan, strand, made), f"If it is another number, {answer}." if answer else "")
    return Recap(last, count, _length(plan, entry, number, strand_mm), coming)


def _last(plan: Plan, piece: Piece) -> str:
    entry, number = plan.place(piece.done)
    strand = plan.strands[entry]
    step = strand.steps[number - 1]
    # A string step begins with a bead's name, which keeps its capital.
    told = step_sentence(step)
    text = told if step.kind == "string" else uncapitalised(told)
    where = f" ({strand.title})" if len(plan.strands) > 1 else ""
    return f"Last done: {text} That is step {piece.done} of {plan.total_steps}{where}."


def _length(plan: Plan, entry: int, number: int, strand_mm: float | None) -> str:
    planned_mm = ruler_mm(plan, entry, number)
    unit = display_unit(plan.unit)
    own, other = show_both(planned_mm if strand_mm is None else strand_mm, unit)
    planned = show(planned_mm, unit)
    differs = "" if planned == own else f"; the plan said {planned}"
    where = where_from(plan, entry, plan.piece_step(entry, number))
    return f"The strand should measure about {own} ({other}){differs}. {where}"


def _next(plan: Plan, piece: Piece) -> str:
    if piece.done == plan.total_steps:
        return "Every step is done." if piece.state == "under way" else f"The piece is {piece.state}."
    entry, number = plan.place(piece.done + 1)
    return f"Next: {step_sentence(plan.strands[entry].steps[number - 1])}"
