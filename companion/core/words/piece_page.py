"""The plan at hand: all there is to know of a piece, section by section, for the page and the command line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import fsum
from typing import TYPE_CHECKING

from msgspec import Struct

from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show, show_both
from companion.core.values.text import capitalised, count_of, plain, sentences
from companion.core.words.cut_words import cut_lengths, cut_list, really_cut_lines
from companion.core.words.finish_words import left_of
from companion.core.words.measured.reading_words import notes_lines, readings_lines
from companion.core.words.notices import PieceLine
from companion.core.words.plan_words import (
    closed_length_lines,
    count_out_lines,
    fit_line,
    length_line,
    needed_lines,
    opened_line,
    order_lines,
    target_line,
)
from companion.core.words.result_words import good_sentence
from companion.core.words.step_words import step_sentence
from companion.core.words.trade.cautions import cautions

if TYPE_CHECKING:
    from companion.core.forecast.outlook import Outlook

DONE, NOW, COMING = "✓", "▸", " "
OPEN_END = "plain tail"
MOST_IN_SHORT = 60  # columns


def piece_page(
    plan: Plan,
    piece: Piece,
    journal: Sequence[str],
    own_arm_mm: float | None = None,
    outlook: Outlook | None = None,
) -> Iterator[PieceLine]:
    """Cut, beads, what is needed, steps, readings, notes, cautions and the journal. `journal`: its events in words;
    `outlook`: what is expected of a piece that was measured."""
    yield from _cut(plan, piece, own_arm_mm)
    yield from (
        PieceLine(line, 1) for line in (_length(plan, piece, outlook), opened_line(plan), fit_line(plan)) if line
    )
    yield from _laid_out(plan)
    yield from _steps(plan, piece)
    yield from _section("Readings", readings_lines(plan, piece, outlook.set_aside if outlook else ()), "None yet.")
    yield from _section("Notes", notes_lines(plan, piece), "None.")
    yield from _section("Take care", [caution.text for caution in cautions(plan)], "")
    yield from _section("Journal", journal, "")


def design_page(plan: Plan, own_arm_mm: float | None = None) -> Iterator[PieceLine]:
    """The same of a design of which no piece is begun: cut, beads, what is needed, steps, what to take care of."""
    if plan.note:
        yield PieceLine(plan.note)
        yield PieceLine("")
    yield from (PieceLine(line.text, line.depth, line.depth == 0) for line in cut_list(plan, own_arm_mm))
    yield from (PieceLine(line, 1) for line in (length_line(plan), opened_line(plan), fit_line(plan)) if line)
    yield from _laid_out(plan)
    yield from _steps(plan)
    yield from _section("Take care", [caution.text for caution in cautions(plan)], "")


def _section(title: str, lines: Sequence[str], none: str) -> Iterator[PieceLine]:
    if lines or none:
        yield PieceLine("")
        yield PieceLine(title, heading=True)
        yield from (PieceLine(line, 1) for line in (lines or [none]))


def _cut(plan: Plan, piece: Piece, own_arm_mm: float | None) -> Iterator[PieceLine]:
    unit = display_unit(plan.unit)
    yield from (PieceLine(line.text, line.depth, line.depth == 0) for line in cut_list(plan, own_arm_mm))
    yield from (PieceLine(line, 1) for line in really_cut_lines(plan, piece))
    if piece.joins:
        joined_mm = fsum(join.added_mm for join in piece.joins)
        yield PieceLine(f"you joined on {left_of(joined_mm, plan.strands[-1].layers, unit)}", 1)


def _length(plan: Plan, piece: Piece, outlook: Outlook | None) -> str:
    """How long it will be: by the plan, and by the readings too once there are any, as while it is followed. Of one
    that is finished, how long it came out."""
    if outlook is None and piece.finished_mm is None:
        return length_line(plan)
    from companion.core.words.measured.reason_words import finishes_at

    own, other = show_both(plan.finished_length_mm, display_unit(plan.unit))
    course = ""
    if outlook is not None and piece.state == "under way":
        course = f"; on course for {finishes_at(plan, piece, outlook)}"
    elif piece.finished_mm is not None:
        course = f"; it came out at {show(piece.finished_mm, display_unit(plan.unit))}"
    return sentences(f"Planned as {own} ({other}) long when closed{course}.", target_line(plan))


def _laid_out(plan: Plan) -> Iterator[PieceLine]:
    yield from _section("Count out", list(count_out_lines(plan)), "")
    if order := order_lines(plan):
        title, *lines = order
        yield from _section(title, lines, "")
    yield from _section("You will need", needed_lines(plan), "")


def _steps(plan: Plan, piece: Piece | None = None) -> Iterator[PieceLine]:
    """`piece`: None for a design, of which no step is marked."""
    before = 0
    for strand in plan.strands:
        yield PieceLine("")
        yield PieceLine(f"Steps, {strand.title}" if len(plan.strands) > 1 else "Steps", heading=True)
        width = len(str(before + len(strand.steps)))
        for step in strand.steps:
            number = before + step.number
            yield PieceLine(f"{_mark(piece, number)}{number:>{width}}  {step_sentence(step)}", 1)
        before += len(strand.steps)


def _mark(piece: Piece | None, number: int) -> str:
    if piece is None:
        return ""
    return f"{DONE if number <= piece.done else NOW if number == piece.done + 1 else COMING} "


# -- in short, beside a drawing of it ---------------------------------------------------------------------------------


def lengths_in_short(plan: Plan, piece: Piece | None) -> list[str]:
    """How long it is, or came out, and the cords it is cut from. `piece`: None for a design."""
    if piece is not None and piece.state == "finished":
        told = good_sentence(plan, piece)
    else:
        told = " ".join(closed_length_lines(plan))
    return [told, *(f"Cut {line}" for line in _cuts_in_short(plan, piece))]


def _cuts_in_short(plan: Plan, piece: Piece | None) -> Iterator[str]:
    """Each cord as it was really cut, where that was said, else as it is planned."""
    for number, planned in enumerate(cut_lengths(plan)):
        really_mm = piece.cut_mm(number) if piece else None
        yield planned if really_mm is None else f"{show(really_mm, display_unit(plan.unit))} of {plan.cord.name}"


class InShort(Struct, frozen=True):
    """A design or a piece in a few words, to choose it by: `kind` for the end of its line, `whole` for a line or two
    below."""

    kind: str
    whole: str


def in_short(plan: Plan) -> InShort:
    """Its size and its closure: "wrist 6 1/2 in, clasp"; then its length, its cord and its closures in full."""
    unit = display_unit(plan.unit)
    own, other = show_both(plan.finished_length_mm, unit)
    size = plan.size.typed if plan.size and plan.size.typed else f"{own} long"
    ends = [plan.strands[0].start_closure, plan.strands[-1].end_closure]
    closures = list(dict.fromkeys(end or OPEN_END for end in ends))
    layers = {1: "", 2: ", doubled"}.get(plan.cord.layers, f", {plan.cord.layers} together")
    cord = f"{plan.cord.name} {plan.cord.diameter_mm:.4g} mm{layers}"
    kinds = list(dict.fromkeys("clasp" if "clasp" in closure else closure for closure in closures))
    strands = f", {count_of(len(plan.strands), 'strand')}" if len(plan.strands) > 1 else ""
    return InShort(
        plain(f"{size}, {' and '.join(kinds)}", MOST_IN_SHORT),
        plain(
            f"{own} ({other}) long when closed{strands}. {capitalised(cord)}. {capitalised(' and '.join(closures))}."
        ),
    )


def note_in_short(plan: Plan, piece: Piece | None) -> str:
    """The latest note of a piece, with its step, or the design's own; "" where there is none."""
    notes = notes_lines(plan, piece) if piece else [plan.note]
    return notes[-1] if notes else ""
