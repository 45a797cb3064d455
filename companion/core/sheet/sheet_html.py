"""A sheet as one page of HTML that needs nothing else: no script, nothing loaded, all text escaped."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from companion.core.drawing.svg import scaled_svgs
from companion.core.plan.plan import Plan
from companion.core.sheet.knot_svg import knot_svg
from companion.core.sheet.page_style import STYLE, STYLE_HASH
from companion.core.sheet.sheet import EntrySheet, Part, RulerRow, StepSheet
from companion.core.sheet.sheet_words import (
    BLANK_LINES,
    HOW_IT_IS_DONE,
    NOTES,
    PICTURE,
    STEPS,
    TOO_LONG,
    YOURS,
    YOURS_LEFT,
    boxes_words,
    check_words,
    row_words,
)
from companion.core.sheet.step_rows import StepRow
from companion.core.values.measures.show_lengths import display_unit, show
from companion.core.values.measures.units import MM_PER_INCH
from companion.core.values.text import capitalised
from companion.core.words.trade.how_to import MISTAKES, HowTo

WIDE_MM = 178.0  # of the picture: fits A4 and Letter with 15 mm of margin
MOST_DRAWN = 3000  # elements; a longer piece fills too many pages
INDENTED = '<li class="in">'
_POLICY = f"default-src 'none'; style-src '{STYLE_HASH}'"


def sheet_page(sheet: StepSheet, plan: Plan) -> Iterator[str]:
    """The page, part by part."""
    yield "<!DOCTYPE html>"
    yield f'<html lang="en"><head><meta charset="utf-8"><title>{escape(sheet.title)}</title>'
    yield f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<style>{STYLE}</style></head><body>"
    yield f"<header><h1>{escape(sheet.title)}</h1>"
    yield from (f"<p>{escape(line)}</p>" for line in sheet.about)
    yield '</header><div class="parts">'
    for part in sheet.parts:
        yield from _part(part)
    yield "</div>"
    yield from _picture(plan)
    for entry in sheet.entries:
        yield from _entry(entry)
    if sheet.how_tos:
        yield f'<h2>{HOW_IT_IS_DONE}</h2><div class="hows">'
        for one in sheet.how_tos:
            yield from _how_to(one)
        yield "</div>"
    yield f'<section class="notes"><h2>{NOTES}</h2>'
    yield from (f"<p>{escape(note)}</p>" for note in sheet.notes)
    yield '<p class="blank"></p>' * BLANK_LINES
    yield "</section></body></html>"


def _part(part: Part) -> Iterator[str]:
    yield f"<section><h2>{escape(part.title)}</h2><ul>"
    for depth, text in part.lines:
        yield f"{INDENTED if depth else '<li>'}{escape(text)}</li>"
    yield "</ul></section>"


def _picture(plan: Plan) -> Iterator[str]:
    yield f'<section class="picture"><h2>{PICTURE}</h2>'
    if sum(len(strand.elements) for strand in plan.strands) > MOST_DRAWN:
        yield f"<p>{TOO_LONG}</p></section>"
        return
    inches = plan.unit == "in"
    long_mm, step_mm = (4 * MM_PER_INCH, MM_PER_INCH) if inches else (100.0, 10.0)
    yield f"<p>{escape(check_words(show(long_mm, display_unit(plan.unit))))}</p>"
    yield f'<svg class="check" width="{long_mm + 2:g}mm" height="6mm" viewBox="-1 0 {long_mm + 2:g} 6" role="img">'
    yield f'<path d="M 0 5 H {long_mm:g}" stroke="#000" stroke-width="0.3"/>'
    for mark in range(round(long_mm / step_mm) + 1):
        at, up = mark * step_mm, 4 if mark % 5 == 0 or inches else 2
        yield f'<path d="M {at:g} 5 v -{up}" stroke="#000" stroke-width="0.3"/>'
    yield "</svg>"
    yield from scaled_svgs(plan, WIDE_MM)
    yield "</section>"


def _entry(entry: EntrySheet) -> Iterator[str]:
    title = f"{STEPS}, {entry.title}" if entry.title else STEPS
    yield f'<h2>{escape(title)}</h2><p class="where">{escape(entry.where)}</p><table class="steps">'
    for row in entry.rows:
        yield _ruler_row(row) if isinstance(row, RulerRow) else _step_row(row)
    yield "</table>"


def _step_row(row: StepRow) -> str:
    often, lines = row_words(row.texts, row.times)
    texts = "<br>".join(map(escape, lines))
    words = f"<b>{often}</b>{' ' if len(lines) == 1 else '<br>'}{texts}" if often else texts
    boxes = _boxes(row)
    one, several = (boxes, "") if row.boxes == 1 else ("", f"<br>{boxes}")
    return f"<tr>{_number(row)}<td>{one}</td><td>{words}{several}</td></tr>"


def _number(row: StepRow) -> str:
    return f'<th scope="row">{boxes_words(row.first, row.last)}</th>'


def _boxes(row: StepRow) -> str:
    made, groups = row.done, []
    for boxes in row.groups:
        ticked = min(boxes, made)
        groups.append(f'<span class="group">{"<i>✓</i>" * ticked}{"<i></i>" * (boxes - ticked)}</span>')
        made -= ticked
    return f'<span class="boxes">{" ".join(groups)}</span>'


def _ruler_row(row: RulerRow) -> str:
    if row.read:
        yours = f"{YOURS}: <b>{escape(', '.join(row.read))}</b>"
    else:
        yours = f'{YOURS} <span class="line"></span> {YOURS_LEFT} <span class="line"></span>'
    return f'<tr class="ruler"><th></th><td></td><td>{escape(row.words)}<br>{yours}</td></tr>'


def _how_to(one: HowTo) -> Iterator[str]:
    yield f'<section class="how"><h3>{escape(capitalised(one.name))}</h3>'
    yield knot_svg(one.shown)
    for heading, steps in one.parts:
        kind = "ul" if heading == MISTAKES else "ol"
        yield f"<h4>{escape(heading)}</h4>" if heading else ""
        yield f"<{kind}>{''.join(f'<li>{escape(step)}</li>' for step in steps)}</{kind}>"
    yield "</section>"
