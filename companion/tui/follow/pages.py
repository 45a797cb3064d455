"""Pages to read while a piece is made: how a step is done, how a knot is tied, and what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from msgspec import Struct
from textual.content import Content

from companion.core.plan.plan import Plan, Step
from companion.core.tying.knot_picture import in_words
from companion.core.tying.shown import KnotShown
from companion.core.values.text import capitalised, closed
from companion.core.words.step_words import stringing_words
from companion.core.words.trade.asked_for import asked_for, closure_shown
from companion.core.words.trade.cautions import cautions
from companion.core.words.trade.how_to import HowTo
from companion.core.words.trade.knot_lore import Lore, lore_at

A_LINE = 50  # columns that a step's words have beside its drawing, two lines together, on the smallest screen


class WorkPage(Struct, frozen=True):
    """How a step is done. `shown`: what is drawn between the two texts, where anything is."""

    above: Content
    shown: KnotShown | None
    below: Content


def lore_page(told: Lore, width: int = 72, rows: int | None = None, drawn: bool = False) -> Content:
    """How a knot is tied; in so many rows, if said: mistakes without room are left out. `drawn`: its drawing stands
    above already."""
    lines: list[str] = [told.title, *(() if drawn else ("", *told.drawing, ""))]
    for number, step in enumerate(told.steps, start=1):
        lines += wrap(f"{number}  {step}", width, subsequent_indent="   ")
    lines.append("")
    for mistake in told.mistakes:
        more = wrap(f"·  {mistake}", width, subsequent_indent="   ")
        if rows is not None and len(lines) + len(more) > rows:
            break
        lines += more
    return Content("\n".join(lines))


def work_page(
    plan: Plan, done: int, width: int = 72, left_handed: bool = False, drawn: bool = False
) -> WorkPage | None:
    """How the present step is done, with nothing cut off, and how the next knot is tied; None where none of it is left.
    `done`: how many steps are done; `drawn`: whether there are pixels to draw with."""
    if done >= plan.total_steps:
        return None
    entry, number = plan.place(done + 1)
    strand = plan.strands[entry]
    step, lines = strand.steps[number - 1], list[str]()
    if step.kind == "string":
        lines += wrap(closed(step.text), width) if len(step.text) > A_LINE else []
    else:
        for one in (one for one in strand.steps if one.kind == step.kind):
            mark = "▸" if one is step else " "
            lines += wrap(
                f"{mark} {plan.piece_step(entry, one.number)}  {closed(one.text)}", width, subsequent_indent="     "
            )
    if order := stringing_words(plan, strand, number):
        lines += ["", *wrap(order, width)]
    for asked in asked_for(plan, entry, step, left_handed):
        lines += ["", capitalised(asked.name), *(f"  {line}" for line in asked.drawing), *_asked_lines(asked, width)]
    told, above = next_lore(plan, done, left_handed), Content("".join(f"{line}\n" for line in lines))
    closure = closure_shown(plan, entry, step, left_handed) if drawn else None
    lore = lore_page(told, width, drawn=drawn and closure is None) if told else Content("")
    if closure or (told and drawn):
        return WorkPage(above, closure or (told.shown if told else None), lore)
    return WorkPage(above + Content("\n") if lines and told else above, None, lore)


def _asked_lines(asked: HowTo, width: int) -> Iterator[str]:
    """The steps of a small job."""
    for place, text in enumerate(asked.parts[0][1], start=1):
        yield from wrap(f"{place}  {text}", width, subsequent_indent="   ")


def asked_page(plan: Plan, entry: int, step: Step, left_handed: bool, width: int, rows: int) -> Content:
    """How to do the small jobs that a step at an end asks for; in so many rows: those without room are left out."""
    lines: list[str] = []
    for asked in asked_for(plan, entry, step, left_handed):
        more = ["", *wrap(capitalised(asked.name), width), *_asked_lines(asked, width)]
        if len(lines) + len(more) <= rows + 1:  # the first line is empty
            lines += more
    return Content("\n".join(lines[1:]))


def closure_words(shown: KnotShown, width: int) -> Content:
    """The name of a closure, and what its drawing shows."""
    return Content("\n".join((capitalised(shown.name), "", *wrap(in_words(shown), width))))


def cautions_page(plan: Plan) -> Content:
    """What to mind with this piece."""
    return Content("\n\n".join(caution.text for caution in cautions(plan)))


def next_lore(plan: Plan, done: int, left_handed: bool = False) -> Lore | None:
    """How the knot that comes next is tied once so many steps are done, None where none is left to tie."""
    for number in range(min(done + 1, plan.total_steps), plan.total_steps + 1):
        entry, own_number = plan.place(number)
        step = plan.strands[entry].steps[own_number - 1]
        if step.knot:
            return lore_at(plan, entry, step, left_handed)
    return None
