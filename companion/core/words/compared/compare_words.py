"""Variants of a design side by side: in columns, and in sentences for the ear."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from companion.core.picture.marks import legend, letters_of
from companion.core.plan.plan import Plan
from companion.core.plan.tray import beads_to_count_out, findings
from companion.core.values.design import Bead, Knot
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit, show, show_number
from companion.core.values.text import capitalised, count_of, join_words, plural
from companion.core.variants.hours import Hand, seconds_to_make
from companion.core.variants.reach import needs_mm
from companion.core.variants.variants import AXES, Axis, Variant, Way
from companion.core.words.plan_words import finding_words

TITLES: dict[Axis, str] = {"knots": "Knots", "cord": "Cord", "closure": "Closure"}
AS_DESIGNED = "* as the design has it"
KNOTS_STAY = "The knots stay where they are: they hold the beads on bare cord, or there are none between beads."
KNOT, BARE = "•", "─"
MOST_COLUMNS = 80  # of a table
STRIP_COLUMNS = 60
TOLD_IN_THE_ROW = ("length outside tolerance", "estimates")
PACE = {
    True: "Time at your own pace.",
    False: "Time at a usual pace; your own is known once a few steps are done.",
}
IN_UNIT: dict[DisplayUnit, str] = {
    "in": "All lengths are in inches.",
    "cm": "All lengths are in centimetres.",
    "mm": "All lengths are in millimetres.",
}
_FIVE, _QUARTER = 5, 15  # minutes that times are rounded to, up to two hours and beyond


class VariantRow(Struct, frozen=True):
    """One variant as the table has it, lengths without their unit. `note`: what to see to. Where that is what differs,
    `needs`: its findings; `strip`: how its beads and knots begin."""

    label: str
    length: str
    cut: str
    used: str
    beads: str
    seconds: float
    note: str = ""
    needs: str = ""
    strip: str = ""
    as_designed: bool = False


def used_mm(plan: Plan) -> float:
    """The cord that is in the piece when it is done, whole, mm, what is cut apart included."""
    in_strands_mm = sum(strand.layers * strand.steps[-1].cord_used_mm for strand in plan.strands)
    return in_strands_mm + sum(extra.cut_mm for extra in plan.extra_cords)


def way_words(way: Way, plan: Plan) -> str:
    """What is done otherwise: "after every 2nd bead", "around Silver daisies only", "doubled", a closure's name."""
    if way.knotting is not None:
        every = way.knotting.every
        if every:
            return "after every bead" if every == 1 else f"after every {ordinal(every)} bead"
        return f"around {plural(plan.bead(way.knotting.around).name, 2)} only"
    if way.layers:
        return {1: "single", 2: "doubled"}.get(way.layers, f"{way.layers} cords together")
    return way.closure or "as it is"


def ordinal(number: int) -> str:
    """The number as it is counted: "2nd", "3rd", "11th"."""
    ending = "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def time_words(seconds: float) -> str:
    """A time to be expected, roundly: "45 min", "2 h 30 min"."""
    hours, minutes = _roundly(seconds)
    return " ".join(part for part in (f"{hours} h" if hours else "", f"{minutes} min" if minutes else "") if part)


def time_in_full(seconds: float) -> str:
    """The same in full: "45 minutes", "2 hours and 30 minutes"."""
    hours, minutes = _roundly(seconds)
    parts = [count_of(hours, "hour")] if hours else []
    return join_words([*parts, count_of(minutes, "minute")] if minutes else parts)


def _roundly(seconds: float) -> tuple[int, int]:
    minutes = seconds / 60
    step = _FIVE if minutes <= 120 else _QUARTER
    return divmod(max(step, step * round(minutes / step)), 60)


def variant_row(variant: Variant, plan: Plan, hand: Hand, unit: DisplayUnit) -> VariantRow:
    """A variant that can be made, as the table has it."""
    axis = variant.way.axis
    return VariantRow(
        way_words(variant.way, plan),
        show_number(plan.finished_length_mm, unit),
        show_number(needs_mm(plan), unit),
        show_number(used_mm(plan), unit),
        str(sum(count for _, count in beads_to_count_out(plan))),
        seconds_to_make(plan, hand),
        "; ".join(filter(None, (length_note(plan), "an estimate" if variant.estimated else ""))),
        needs_words(plan, unit) if axis == "closure" else "",
        strip(plan, variant.way.knotting.around if variant.way.knotting else "") if axis == "knots" else "",
        variant.as_designed,
    )


def length_note(plan: Plan) -> str:
    """Whether it misses its target by more than the tolerance: "too long", "too short"; "" for neither."""
    if plan.target_mm is None or plan.tolerance_mm is None:
        return ""
    off_mm = plan.finished_length_mm - plan.target_mm
    return "" if abs(off_mm) <= plan.tolerance_mm + 1e-9 else "too long" if off_mm > 0 else "too short"


def strip(plan: Plan, key: str = "", columns: int = STRIP_COLUMNS) -> str:
    """How the beads and knots of its first strand begin, or of the first one with a bead of that key, in letters:
    "•GG•GG•S"; bare cord is a dash."""
    letters = letters_of(plan.beads)
    strand = next((one for one in plan.strands if key in dict(one.beads)), plan.strands[0])
    marks = [
        letters[one.key] if isinstance(one, Bead) else KNOT if isinstance(one, Knot) else BARE
        for one in strand.elements[: columns + 1]
    ]
    return "".join(marks) if len(marks) <= columns else "".join(marks[: columns - 1]) + "…"


def letters_line(plan: Plan) -> str:
    """What the letters of a strip stand for."""
    return f"{join_words([f'{mark.letter} {mark.name}' for mark in legend(plan)])}; {KNOT} a knot."


def needs_words(plan: Plan, unit: DisplayUnit) -> str:
    """The findings of its closure, and a cord that is cut apart for it."""
    apart = [f"a cord of {show(extra.cut_mm, unit)} apart" for extra in plan.extra_cords]
    return join_words([*(finding_words(one, unit) for one in findings(plan)), *apart]) or "no findings"


# -- side by side -----------------------------------------------------------------------------------------------------


def comparison_lines(variants: Sequence[Variant], plan: Plan, hand: Hand) -> Iterator[str]:
    """All variants in columns, a table for each thing that is done otherwise. `plan`: the design's own."""
    yield from filter(None, (_aim(plan), PACE[hand.own], IN_UNIT[display_unit(plan.unit)]))
    tables = {axis: _cells(TITLES[axis], rows) for axis in AXES if (rows := _rows(variants, axis, plan, hand))}
    shared = _widths([row for table in tables.values() for row in table])
    told = {axis: [*_table(_rows(variants, axis, plan, hand), table, shared)] for axis, table in tables.items()}
    if any(len(line) > MOST_COLUMNS for lines in told.values() for line in lines):
        told = {
            axis: [*_table(_rows(variants, axis, plan, hand), table, _widths(table))] for axis, table in tables.items()
        }
    for lines in told.values():
        yield ""
        yield from lines
    if "knots" not in tables:
        yield ""
        yield KNOTS_STAY
    yield ""
    yield AS_DESIGNED
    if _rows(variants, "knots", plan, hand):
        yield letters_line(plan)
    yield from _more(variants, plan)


def _rows(variants: Sequence[Variant], axis: Axis, plan: Plan, hand: Hand) -> list[VariantRow]:
    """Those of one thing; none where there is nothing to compare."""
    unit = display_unit(plan.unit)
    found = [variant_row(one, one.plan, hand, unit) for one in variants if one.way.axis == axis and one.plan]
    return found if len(found) > 1 else []


def _cells(title: str, rows: Sequence[VariantRow]) -> list[tuple[str, ...]]:
    """What stands in the columns of a table, its head first."""
    told = [(one.label, one.length, one.cut, one.used, one.beads, time_words(one.seconds)) for one in rows]
    return [(title, "length", "cut", "used", "beads", "about"), *told]


def _widths(cells: Sequence[tuple[str, ...]]) -> list[int]:
    return [max(map(len, column)) for column in zip(*cells, strict=True)]


def _table(rows: Sequence[VariantRow], cells: Sequence[tuple[str, ...]], widths: Sequence[int]) -> Iterator[str]:
    """The lines of a table; its columns are so wide: as those of all tables, where there is room for that."""
    head, *lines = ([f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)] for row in cells)
    yield "  ".join((f"{head[0]}  ", *head[1:])).rstrip()
    for row, (label, *shown) in zip(rows, lines, strict=True):
        yield "  ".join((f"{'* ' if row.as_designed else '  '}{label}", *shown, row.note)).rstrip()
        if row.needs or row.strip:
            yield f"      {row.needs or row.strip}"


def _aim(plan: Plan) -> str:
    if plan.target_mm is None or plan.tolerance_mm is None:
        return ""
    unit = display_unit(plan.unit)
    return f"The target is {show(plan.target_mm, unit)}, and {show(plan.tolerance_mm, unit)} either way is near enough."


def _more(variants: Sequence[Variant], plan: Plan) -> Iterator[str]:
    """What to see to: each warning that the design itself has not, with the variants that it is for; what can't be
    made, and why."""
    if any(one.estimated for one in variants):
        yield "With another number of cords the knots are estimates, so more is cut to be safe."
    wanted: dict[str, list[str]] = {}
    for one in variants:
        for warning in one.new_warnings:
            if warning.code not in TOLD_IN_THE_ROW:
                wanted.setdefault(warning.text, []).append(way_words(one.way, plan))
        if one.plan is None:
            wanted.setdefault(one.why_not, []).append(way_words(one.way, plan))
    for text, ways in wanted.items():
        yield f"△ {capitalised(join_words(list(dict.fromkeys(ways))))}: {text}"


# -- for the ear ------------------------------------------------------------------------------------------------------


def comparison_sentences(variants: Sequence[Variant], plan: Plan, hand: Hand) -> Iterator[str]:
    """The same, a sentence or two for each variant."""
    yield from filter(None, (_aim(plan), PACE[hand.own]))
    for axis in AXES:
        rows = _rows(variants, axis, plan, hand)
        if rows:
            yield f"{TITLES[axis]}:"
            yield from (row_sentence(row, display_unit(plan.unit)) for row in rows)
    if not _rows(variants, "knots", plan, hand):
        yield KNOTS_STAY
    yield from _more(variants, plan)


def row_sentence(row: VariantRow, unit: DisplayUnit) -> str:
    """A variant in one breath."""
    designed = ", as the design has it" if row.as_designed else ""
    note = f" ({row.note})" if row.note else ""
    beads = count_of(int(row.beads), "bead")
    needs = f" It needs {row.needs}." if row.needs else ""
    return (
        f"{capitalised(row.label)}{designed}: {row.length} {unit} long{note}. "
        f"Cut {row.cut} {unit}, of which {row.used} {unit} are used. "
        f"{capitalised(beads)}, about {time_in_full(row.seconds)}.{needs}"
    )
