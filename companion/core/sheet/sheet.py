"""Everything that a sheet of paper needs to work by, before it is set as text or as a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from companion.core.forecast.cord_budget import free_at_start_mm
from companion.core.forecast.observations import ruler_mm
from companion.core.journal.piece import NOT_BEGUN, Piece
from companion.core.plan.plan import Plan, Step
from companion.core.sheet.ruler_checks import ruler_checks
from companion.core.sheet.sheet_words import about_lines, read_words, ruler_words
from companion.core.sheet.step_rows import StepRow, step_rows
from companion.core.values.design import KNOT_KINDS
from companion.core.values.text import plain
from companion.core.words.cut_words import cut_list, really_cut_lines
from companion.core.words.measured.reading_words import notes_lines, where_from
from companion.core.words.plan_words import count_out_lines, needed_lines, order_lines
from companion.core.words.trade.asked_for import asked_for
from companion.core.words.trade.cautions import cautions
from companion.core.words.trade.how_to import HowTo
from companion.core.words.trade.knot_lore import lore_at


class Part(Struct, frozen=True):
    """Some lines under a heading, each with how far it is set in."""

    title: str
    lines: tuple[tuple[int, str], ...]


class RulerRow(Struct, frozen=True):
    """Where to measure: after which step of the piece, what the ruler should say, and what it has said, () where there
    is a blank to be filled in."""

    step: int
    words: str
    read: tuple[str, ...]


class EntrySheet(Struct, frozen=True):
    """The steps of one entry, under its name, "" where there is but one. `where`: from where to where to measure."""

    title: str
    rows: tuple[StepRow | RulerRow, ...]
    where: str


class StepSheet(Struct, frozen=True):
    """A sheet. `about`: lines below its title; `parts`: what to cut and lay out, and what to take care of."""

    title: str
    about: tuple[str, ...]
    parts: tuple[Part, ...]
    entries: tuple[EntrySheet, ...]
    how_tos: tuple[HowTo, ...]
    notes: tuple[str, ...]


def step_sheet(
    plan: Plan, name: str = "", piece: Piece = NOT_BEGUN, own_arm_mm: float | None = None, left_handed: bool = False
) -> StepSheet:
    """The sheet of a design, or of a piece under its own `name`: what is made is ticked, what was read is there."""
    entries = tuple(_entry_sheet(plan, entry, piece) for entry in range(len(plan.strands)))
    return StepSheet(
        plain(name or plan.design),
        tuple(about_lines(plan, bool(name))),
        tuple(_parts(plan, piece, own_arm_mm)),
        entries,
        tuple(_how_tos(plan, left_handed)),
        tuple(notes_lines(plan, piece)),
    )


def _parts(plan: Plan, piece: Piece, own_arm_mm: float | None) -> Iterator[Part]:
    title, *cut = cut_list(plan, own_arm_mm)
    really = ((0, line) for line in really_cut_lines(plan, piece))
    yield Part(title.text, (*((line.depth - 1, line.text) for line in cut), *really))
    yield _part("Count out", count_out_lines(plan))
    if order := order_lines(plan):
        yield _part(order[0], order[1:])
    yield _part("You will need", needed_lines(plan))
    if plan.warnings:
        yield _part("Before you begin", (warning.text for warning in plan.warnings))
    yield _part("Take care", (caution.text for caution in cautions(plan)))


def _part(title: str, lines: Iterable[str]) -> Part:
    return Part(title, tuple((0, line) for line in lines))


def _entry_sheet(plan: Plan, entry: int, piece: Piece) -> EntrySheet:
    strand = plan.strands[entry]
    return EntrySheet(
        strand.title if len(plan.strands) > 1 else "",
        tuple(_rows(plan, entry, piece)),
        where_from(plan, entry, plan.piece_step(entry, len(strand.steps))) if strand.elements else "",
    )


def _rows(plan: Plan, entry: int, piece: Piece) -> Iterator[StepRow | RulerRow]:
    checks = ruler_checks(plan, entry)
    for row in step_rows(plan, entry, [plan.place(step)[1] for step in checks], piece.done):
        yield row
        if row.last in checks:
            yield _ruler_row(plan, entry, row.last, piece)


def _ruler_row(plan: Plan, entry: int, step: int, piece: Piece) -> RulerRow:
    number = plan.place(step)[1]
    one = plan.strands[entry].steps[number - 1]
    left_mm = free_at_start_mm(plan, piece, entry) - one.cord_used_mm
    read = tuple(read_words(reading) for reading in piece.readings if reading.step == step)
    return RulerRow(step, ruler_words(plan, step, ruler_mm(plan, entry, number), left_mm), read)


def _how_tos(plan: Plan, left_handed: bool) -> Iterator[HowTo]:
    """How each knot and job of it is done, each once, in the order in which they come."""
    told: set[str] = set()
    for entry in range(len(plan.strands)):
        for step in _telling_steps(plan, entry):
            for one in _of_step(plan, entry, step, left_handed):
                if one.name not in told:
                    told.add(one.name)
                    yield one


def _telling_steps(plan: Plan, entry: int) -> Iterator[Step]:
    """The steps at the ends, and between them one for each kind of knot, from the middle of the strand."""
    steps = plan.strands[entry].steps
    yield from (step for step in steps if step.kind == "start")
    for kind in KNOT_KINDS:
        tied = [step for step in steps if step.knot == kind]
        yield from tied[len(tied) // 2 :][:1]
    yield from (step for step in steps if step.kind == "end")


def _of_step(plan: Plan, entry: int, step: Step, left_handed: bool) -> Iterable[HowTo]:
    if step.knot is None:
        return asked_for(plan, entry, step, left_handed)
    told = lore_at(plan, entry, step, left_handed)
    return (HowTo(told.title, "", (("", told.steps),), told.shown, told.drawing),)
