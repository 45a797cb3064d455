"""A plan for reading: what to cut, what it comes to, what to lay out, what to take care of, and every step."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.forecast.observations import ruler_mm
from companion.core.plan.cut import rounded_up_by_mm
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit, show, show_both
from companion.core.values.text import capitalised, sentences
from companion.core.words.cut_words import cut_list
from companion.core.words.notices import heading
from companion.core.words.plan_words import (
    count_out_lines,
    fit_line,
    needed_lines,
    opened_line,
    order_lines,
    target_line,
)
from companion.core.words.step_words import step_sentence
from companion.core.words.trade.cautions import cautions
from companion.core.words.trade.trade_rules import length_name, three_beads_rule_mm


def plan_lines(
    plan: Plan, steps: bool = True, own_arm_mm: float | None = None, for_the_ear: bool = False
) -> Iterator[str]:
    """The whole plan, line by line: the cut first, which is needed first. `for_the_ear`: each figure of a step is
    named."""
    unit = display_unit(plan.unit)
    yield heading(plan)
    if plan.note:
        yield plan.note
    yield ""
    yield from ("  " * line.depth + line.text for line in cut_list(plan, own_arm_mm))
    yield ""
    yield from _length(plan, unit)
    yield ""
    yield "Count out"
    yield from (f"  {line}" for line in count_out_lines(plan))
    if order := order_lines(plan):
        title, *lines = order
        yield title
        yield from (f"  {line}" for line in lines)
    yield "You will need"
    yield from (f"  {line}" for line in needed_lines(plan))
    if plan.warnings:
        yield ""
        yield from (f"▲ {warning.text}" for warning in plan.warnings)
    yield ""
    yield from (f"Take care: {caution.text}" for caution in cautions(plan))
    if steps:
        for entry in range(len(plan.strands)):
            yield ""
            yield from _steps(plan, entry, unit, for_the_ear)


def _length(plan: Plan, unit: DisplayUnit) -> Iterator[str]:
    half_mm = (plan.finished_high95_mm - plan.finished_low95_mm) / 2
    own, other = show_both(plan.finished_length_mm, unit)
    name = length_name(plan)
    called = f", {name} length" if name else ""
    closed = " closed" if plan.opened_mm is not None else ""
    yield (
        f"Finished length {own} ({other}){closed}{called}; usually within {show(half_mm, unit)} of that (19 times in "
        "20)."
    )
    if opened := opened_line(plan):
        yield opened
    if plan.target_mm is not None and plan.tolerance_mm is not None:
        rule_mm = three_beads_rule_mm(plan)
        rule = f"The old rule of three bead widths says {show(rule_mm, unit)}." if rule_mm is not None else ""
        near = f"Anything within {show(plan.tolerance_mm, unit)} of the target counts as on length."
        yield sentences(target_line(plan), rule, near)
    if fit := fit_line(plan):
        yield fit
    if len(plan.strands) > 1:
        for strand in plan.strands:
            yield f"  {strand.title}: {show(strand.strand_length_mm, unit)} of beads and knots"


def _steps(plan: Plan, entry: int, unit: DisplayUnit, for_the_ear: bool) -> Iterator[str]:
    strand = plan.strands[entry]
    name = f"Steps, {strand.title}" if len(plan.strands) > 1 else "Steps"
    several = strand.layers > 1
    after_each = f" (after each: the strand, and the leftover cord{', each cord' if several else ''})"
    yield f"{name}." if for_the_ear else f"{name}{after_each}"
    more_mm = rounded_up_by_mm(plan, entry)
    width = len(str(plan.piece_step(entry, len(strand.steps))))
    for step in strand.steps:
        number, told = plan.piece_step(entry, step.number), step_sentence(step)
        made, left = show(ruler_mm(plan, entry, step.number), unit), show(step.free_cord_mm + more_mm, unit)
        if not for_the_ear:
            yield f"  {number:>{width}}  {told}  [{made}, {left}]"
            continue
        figures = [f"strand {made}"] * bool(step.elements) + [f"leftover cord {left}{' each' if several else ''}"]
        yield f"{number}: {told} {capitalised(', '.join(figures))}."
