"""How a finished piece came out: its length, its cord, how long it took, and one sentence to sum it up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import fsum

from companion.core.journal.events import Measured
from companion.core.journal.pace import Worked
from companion.core.journal.piece import Piece
from companion.core.plan.cut import told_cut_mm
from companion.core.plan.leftover import leftover_mm
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, over_or_short, show, show_both
from companion.core.values.measures.units import UNNOTICED_MM
from companion.core.values.text import count_of
from companion.core.words.finish_words import aimed_at, left_of
from companion.core.words.measured.reading_words import notes_lines, readings_lines
from companion.core.words.notices import PieceLine


def good_sentence(began_with: Plan, piece: Piece) -> str:
    """One sentence of how it came out."""
    if piece.finished_mm is None:
        return "It is finished."
    unit, (_, aim_mm) = display_unit(began_with.unit), aimed_at(began_with)
    off_mm = piece.finished_mm - aim_mm
    if abs(off_mm) < UNNOTICED_MM:
        return f"It came out exactly at {show(aim_mm, unit)}."
    said = f"It came out at {show(piece.finished_mm, unit)}, {over_or_short(piece.finished_mm, aim_mm, unit)}"
    if began_with.tolerance_mm is None or not as_wanted(began_with, piece):
        return f"{said}."
    return f"{said}: within the {show(began_with.tolerance_mm, unit)} you allowed."


def as_wanted(began_with: Plan, piece: Piece) -> bool:
    """Whether it came out as near as was asked for."""
    if piece.finished_mm is None:
        return False
    off_mm = abs(piece.finished_mm - aimed_at(began_with)[1])
    return off_mm < UNNOTICED_MM or (began_with.tolerance_mm is not None and off_mm <= began_with.tolerance_mm)


def result_lines(
    plan: Plan,
    began_with: Plan,
    piece: Piece,
    took: Worked,
    left_mm: float | None,
    scrap_mm: float,
    set_aside: Sequence[Measured] = (),
) -> Iterator[PieceLine]:
    """The result, section by section. `plan`: as it was made; `left_mm`: what was left of one layer, where it was said
    at the end; `scrap_mm`: from which on a leftover is worth keeping; `set_aside`: readings that others contradict."""
    yield PieceLine(good_sentence(began_with, piece), heading=True)
    yield PieceLine("")
    yield from result_figures(plan, began_with, piece, took, left_mm, scrap_mm)
    for section in result_remarks(plan, piece, set_aside):
        yield PieceLine("")
        yield from section


def result_figures(
    plan: Plan, began_with: Plan, piece: Piece, took: Worked, left_mm: float | None, scrap_mm: float
) -> Iterator[PieceLine]:
    """What it came to, in figures, as `result_lines` has them."""
    unit, (word, aim_mm) = display_unit(plan.unit), aimed_at(began_with)
    if piece.finished_mm is not None:
        own, other = show_both(piece.finished_mm, unit)
        yield PieceLine(f"came out  {own} ({other})", 1)
    yield PieceLine(f"{'target' if word.startswith('the target') else 'planned':<9} {show(aim_mm, unit)}", 1)
    yield from _cord(plan, piece, left_mm if left_mm is not None else leftover_mm(plan, piece), scrap_mm)
    yield PieceLine(f"{'time':<9} {_time(took.seconds)}, {_days(took.days)}", 1)
    beads = sum(count for strand in plan.strands for _, count in strand.beads) + _more_beads(piece)
    knots = sum(count for strand in plan.strands for _, count in strand.knots)
    yield PieceLine(f"{'made of':<9} {count_of(beads, 'bead')} and {count_of(knots, 'knot')}{_own_knots(plan)}", 1)


def result_remarks(plan: Plan, piece: Piece, set_aside: Sequence[Measured] = ()) -> Iterator[list[PieceLine]]:
    """The sections of what was measured and noted on the way, those that there are."""
    readings = readings_lines(plan, piece, set_aside)
    for title, lines in (("Readings", readings), ("Notes", notes_lines(plan, piece))):
        if lines:
            yield [PieceLine(title, heading=True), *(PieceLine(line, 1) for line in lines)]


def _cord(plan: Plan, piece: Piece, left_mm: float | None, scrap_mm: float) -> Iterator[PieceLine]:
    unit = display_unit(plan.unit)
    for number, cut in enumerate(plan.cuts):
        cut_mm = piece.cut_mm(number) or told_cut_mm(plan, number)
        name = f" ({cut.name})" if len(plan.cuts) > 1 else ""
        yield PieceLine(f"{'cut':<9} {show(cut_mm, unit)}{name}", 1)
    last = plan.strands[-1]
    joined_mm = fsum(join.added_mm for join in piece.joins)
    if joined_mm:
        yield PieceLine(f"{'joined on':<9} {left_of(joined_mm, last.layers, unit)}", 1)
    if left_mm is None:
        return
    if len(plan.strands) == 1:  # of several, only the last one's tail was measured
        used_mm = (piece.cut_mm(0) or told_cut_mm(plan, 0)) + (joined_mm - left_mm) * last.layers
        yield PieceLine(f"{'used':<9} {show(max(0.0, used_mm), unit)}", 1)
    which = f" ({last.title})" if len(plan.strands) > 1 else ""
    worth = "worth keeping" if left_mm >= scrap_mm else "too short to keep"
    yield PieceLine(f"{'left':<9} {left_of(left_mm, last.layers, unit)}{which}, {worth}", 1)


def _own_knots(plan: Plan) -> str:
    """That a closure ties knots of its own, which are not counted among those of the strand."""
    from companion.core.closures.table import CLOSURES  # for a piece that is finished

    ends = {name for strand in plan.strands for name in (strand.start_closure, strand.end_closure) if name}
    return ", and those of the closure" if any(CLOSURES[name].end.own_knots for name in ends) else ""


def _more_beads(piece: Piece) -> int:
    """How many more beads than planned were counted; below 0: so many were left out."""
    return sum(one.beads for one in piece.counted)


def _days(days: int) -> str:
    return "in one day" if days == 1 else f"over {count_of(days, 'day')}"


def _time(seconds: float) -> str:
    minutes = round(seconds / 60)
    if minutes < 60:
        return count_of(max(1, minutes), "minute")
    return f"{minutes // 60} h {minutes % 60} min"
