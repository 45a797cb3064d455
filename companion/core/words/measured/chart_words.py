"""The readings' chart in words: what its marks mean, and the same numbers as a table and as sentences."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.chart.drift import Drift, Foretold, ReadStrand
from companion.core.chart.picture import ASIDE, BAND, CAME_OUT, READING, SUSPECTED
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show, show_plus_minus
from companion.core.values.measures.units import UNNOTICED_MM
from companion.core.words.finish_words import finish_line
from companion.core.words.step_words import step_name

TITLE = "How far from the plan, along the strand"
NOTHING_READ = "Nothing is measured yet: the chart shows what to expect."
NOTES = {"now": "now", "end": "the end"}  # in the table, and in a sentence
PLACES = 4  # of what is still to come that the table names; the chart has them all
# Beside the mark on the chart; and as a sentence, with where it may have begun before it.
SUSPICIONS = {
    "tension changed": ("tension changed?", "your tension may have changed"),
    "tension drifting": ("tension changing?", "your tension may have begun to change"),
    "bead missed": ("a bead missed?", "a bead may be missing"),
    "bead too many": ("a bead too many?", "there may be a bead too many"),
    "knot missed": ("a knot missed?", "a knot may be missing"),
    "knot too many": ("a knot too many?", "there may be a knot too many"),
    "double as single": ("a double knot single?", "a double knot may be tied as a single one"),
    "misread": ("misread?", "a reading may be wrong"),
}


class TableRow(Struct, frozen=True):
    """One row of the table. `step`: after which; `length`: measured or expected; `off`: how far from planned."""

    step: str
    planned: str
    length: str
    off: str
    note: str = ""


def suspicion(drift: Drift) -> str:
    """The word beside the mark of what may have gone wrong, "" for nothing."""
    return SUSPICIONS[drift.suspected.kind][0] if drift.suspected else ""


def legend_lines(drift: Drift, columns: int) -> list[str]:
    """What the marks of this chart mean, the ones that are in it, in lines of so many columns."""
    lines: list[str] = []
    for words in _legend(drift):
        if lines and len(lines[-1]) + 3 + len(words) <= columns:
            lines[-1] += f"   {words}"
        else:
            lines.append(words)
    return lines


def _legend(drift: Drift) -> list[str]:
    found = []
    if any(not one.set_aside for one in drift.readings):
        found.append(f"{READING} measured")
    if any(one.set_aside for one in drift.readings):
        found.append(f"{ASIDE} set aside")
    if drift.finished_off_mm is not None:
        found.append(f"{CAME_OUT} came out")
    if drift.coming:
        found.append(f"{BAND} still to come, 19 times in 20")
    if drift.gate is not None:
        found.append("┻ ┳ as near as you asked")
    if drift.suspected is not None:
        found.append(f"{SUSPECTED} where it may have begun")
    return found


def title(plan: Plan, drift: Drift) -> str:
    """What the chart shows, with the strand's name where there are several."""
    return f"{TITLE} ({plan.strands[drift.entry].title})" if len(plan.strands) > 1 else TITLE


def side_words(off_mm: float, plan: Plan) -> str:
    """How far from planned: "1/8 in longer", "as planned"."""
    if abs(off_mm) < UNNOTICED_MM:
        return "as planned"
    return f"{show(abs(off_mm), display_unit(plan.unit))} {'longer' if off_mm > 0 else 'shorter'}"


# -- the table --------------------------------------------------------------------------------------------------------


def table_rows(plan: Plan, drift: Drift) -> tuple[list[TableRow], list[TableRow]]:
    """What was measured, and what is still to come."""
    return [_read(plan, one) for one in drift.readings], [_to_come(plan, drift, one) for one in _named(drift)]


def _read(plan: Plan, one: ReadStrand) -> TableRow:
    unit = display_unit(plan.unit)
    note = "set aside" if one.set_aside else ""
    length, off = show(one.length_mm, unit), side_words(one.off_mm, plan)
    return TableRow(step_name(plan, one.step), show(one.planned_mm, unit), length, off, note)


def _to_come(plan: Plan, drift: Drift, one: Foretold) -> TableRow:
    unit = display_unit(plan.unit)
    note = "now" if one is drift.coming[0] else "end" if one is drift.coming[-1] else ""
    length = show_plus_minus(one.planned_mm + one.off.mean_mm, one.off.half95_mm, unit)
    step = step_name(plan, one.step) if one.step else "0"
    return TableRow(step, show(one.planned_mm, unit), length, side_words(one.off.mean_mm, plan), note)


def _named(drift: Drift) -> list[Foretold]:
    """A few places of what is still to come: now, evenly on, and the end."""
    last = len(drift.coming) - 1
    numbers = sorted({last * part // PLACES for part in range(PLACES + 1)}) if drift.coming else []
    return [drift.coming[number] for number in numbers]


def table_lines(plan: Plan, drift: Drift) -> Iterator[str]:
    """The numbers of the chart in columns, then what else it shows, in sentences."""
    measured, coming = table_rows(plan, drift)
    for rows, head in ((measured, "measured"), (coming, "expected")):
        if rows:
            yield from _columns(TableRow("after step", "planned", head, "than planned"), rows)
            yield ""
    yield from _beside(plan, drift)


def _columns(head: TableRow, rows: list[TableRow]) -> Iterator[str]:
    steps = [", ".join(filter(None, (row.step, row.note))) for row in (head, *rows)]
    table = [(step, row.planned, row.length, row.off) for step, row in zip(steps, (head, *rows), strict=True)]
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    for cells in table:
        yield "  ".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True)).rstrip()


def table_sentences(plan: Plan, drift: Drift) -> Iterator[str]:
    """The same for the ear: a sentence for each row."""
    measured, coming = table_rows(plan, drift)
    if not measured:
        yield NOTHING_READ
    for row in measured:
        aside = " It is set aside." if row.note else ""
        yield f"After step {row.step}: planned {row.planned}, measured {row.length}, {row.off}.{aside}"
    for row in coming:
        note = f", {NOTES[row.note]}" if row.note else ""
        yield f"After step {row.step}{note}: planned {row.planned}, expected {row.length}, {row.off}."
    yield from _beside(plan, drift)


def _beside(plan: Plan, drift: Drift) -> Iterator[str]:
    """The tolerance, how it came out, and what may have gone wrong."""
    unit = display_unit(plan.unit)
    if drift.gate is not None:
        low, high = (show(drift.length_mm + mm, unit) for mm in (drift.gate.low_mm, drift.gate.high_mm))
        yield f"If the strand ends between {low} and {high}, the piece comes out as near as you asked."
    if drift.finished_off_mm is not None and drift.finished_mm is not None:
        yield f"It came out at {finish_line(plan, drift.finished_mm)}"
    if drift.suspected is not None:
        where = show(drift.suspected.planned_mm, unit)
        at_start = where == show(0.0, unit)
        place = "At the very beginning of the strand" if at_start else f"About {where} along the strand"
        yield f"{place} {SUSPICIONS[drift.suspected.kind][1]}."
