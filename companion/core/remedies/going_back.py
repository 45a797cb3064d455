"""Going back to where something may have gone wrong: what to undo, and the fresh cord if it cannot be undone."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.forecast.outlook import Outlook
from companion.core.forecast.verdicts import NAMED_FROM
from companion.core.journal.events import Jumped
from companion.core.journal.fold import after
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.remedies.evaluation import Baseline
from companion.core.remedies.remedy import Remedy
from companion.core.values.design import Knot
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.text import count_of
from companion.core.words.step_words import step_name

WORTH_IT = ("tension changed", "bead missed", "bead too many", "double as single")


class WayBack(Struct, frozen=True):
    """The way back to where so many steps of the piece are done: the knots to undo, and the fresh cord for restringing,
    mm a layer."""

    step: int
    words: str
    knots: int
    fresh_mm: float


def going_back(baseline: Baseline) -> Iterator[Remedy]:
    """Going back as a remedy, if it brings the length nearer to the target."""
    way = way_back(baseline.plan, baseline.piece, baseline.outlook)
    if way is None:
        return
    draft = Remedy(
        "", way.words, 0.0, 0.0, None, 0.0, 0.0, back_to=way.step, family=("back",), effort=float(way.knots)
    )  # fmt: skip
    outlook = baseline.forecast(baseline.plan, after(baseline.piece, Jumped(way.step)))
    remedy = baseline.with_outlook(draft, outlook)
    if baseline.is_bettered_by(remedy):
        yield remedy


def way_back(plan: Plan, piece: Piece, outlook: Outlook) -> WayBack | None:
    """The way back to just before the most likely fault that can be undone, in the entry being worked.

    None if everything strung so far would have to be undone: that would be another piece.
    """
    fault = next((one for one in outlook.faults if one.kind in WORTH_IT and one.p >= NAMED_FROM), None)
    if fault is None or piece.done == 0 or plan.place(piece.done)[0] != fault.entry:
        return None
    strand = plan.strands[fault.entry]
    done = piece.done - plan.piece_step(fault.entry, 0)
    to = fault.from_step - 1
    if not 0 < to < done or strand.steps[to - 1].kind != "string" or strand.steps[done - 1].kind == "end":
        return None
    undone = strand.elements[strand.steps[to - 1].elements : strand.steps[done - 1].elements]
    knots = sum(isinstance(element, Knot) for element in undone)
    fresh_mm = strand.need_mm - strand.steps[to - 1].cord_used_mm
    back_to = plan.piece_step(fault.entry, to)
    return WayBack(back_to, _words(plan, step_name(plan, back_to), knots, fresh_mm), knots, fresh_mm)


def _words(plan: Plan, to: str, knots: int, fresh_mm: float) -> str:
    material = " in silk" if plan.cord.material == "silk" else ""
    fresh_cord = "fresh cord for each" if plan.cord.layers > 1 else "fresh cord"
    fresh = show(fresh_mm, display_unit(plan.unit))
    return (
        f"Go back to step {to}, before it may have gone wrong: {count_of(knots, 'knot')} to undo. Tight "
        f"knots{material} rarely come undone. If they won't, cut there, join on {fresh} of {fresh_cord} and restring"
    )
