"""Coming back to a piece: what was made last, what to count again, what the ruler should say."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.values.design import Bead
from companion.core.values.show_lengths import display_unit, show, show_both
from companion.core.words.verdict_words import where_from

ENOUGH_TO_COUNT = 3  # fewer beads than this are counted on past the next landmark


@dataclass(frozen=True, slots=True)
class Recap:
    """Sentences for the maker; `recount` and `length` are empty before the first bead. `next` is empty at the end."""

    last: str
    recount: str
    length: str
    next: str

    @property
    def lines(self) -> tuple[str, ...]:
        """The sentences that there are, in order."""
        return tuple(line for line in (self.last, self.recount, self.length, self.next) if line)


def recap(plan: Plan, piece: Piece, strand_mm: float | None = None) -> Recap:
    """Where a piece stands, and how to make sure of it. `strand_mm`: what the strand is expected to measure by the
    readings so far; none: what the plan says."""
    coming = _next(plan, piece)
    if piece.done == 0:
        return Recap("Nothing is made yet.", "", "", coming)
    entry, number = plan.place(piece.done)
    strand = plan.strands[entry]
    step = strand.steps[number - 1]
    text = step.text.rstrip(".")
    where = f" ({strand.label})" if len(plan.strands) > 1 else ""
    last = f"Last made: {text[:1].lower() + text[1:] if step.kind != 'string' else text}. "
    last += f"That is step {piece.done} of {plan.total_steps}{where}."
    if step.elements == 0:
        return Recap(last, "", "", coming)
    unit = display_unit(plan.unit)
    expected_mm = step.strand_mm if strand_mm is None else strand_mm
    own, other = show_both(expected_mm, unit)
    planned = show(step.strand_mm, unit)
    said = "" if planned == own else f"; the plan said {planned}"
    length = f"The strand should measure about {own} ({other}){said}. {where_from(plan, entry)}"
    return Recap(last, recount(plan, strand, step.elements), length, coming)


def recount(plan: Plan, strand: PlannedStrand, made: int) -> str:
    """What to count: the beads back to a landmark, a bead of another kind far enough away to be sure, or to the start.

    `made`: how many of the strand's elements are made. Without beads: the knots since the start.
    """
    beads = [element.key for element in strand.elements[:made] if isinstance(element, Bead)]
    if not beads:
        return f"Count the knots from the start: there should be {made}." if made > 1 else "There should be one knot."
    runs: list[str] = []
    counted = 0
    for key, group in groupby(reversed(beads)):
        length = len(list(group))
        if counted >= ENOUGH_TO_COUNT:
            return f"Count back from the last one: {', then '.join(runs)}, to the last {plan.bead(key).name}."
        runs.append(f"{length} {plan.bead(key).name}")
        counted += length
    return f"Count back from the last one: {', then '.join(runs)}, to the start."


def _next(plan: Plan, piece: Piece) -> str:
    if piece.done == plan.total_steps:
        return "Every step is made." if piece.state == "under way" else f"The piece is {piece.state}."
    entry, number = plan.place(piece.done + 1)
    text = plan.strands[entry].steps[number - 1].text
    return f"Next: {text.rstrip('.')}."
