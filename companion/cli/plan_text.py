"""A plan for reading: what to cut, what it comes to, what to lay out, what to mind, and every step."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.cautions import cautions
from companion.core.cut import ArmRule, arm_rule
from companion.core.design import KNOT_KINDS
from companion.core.plan import Plan, PlannedStrand
from companion.core.show_lengths import DisplayUnit, display_unit, show, show_both, show_plus_minus
from companion.core.text import join_words
from companion.core.tray import beads_to_count_out, tools
from companion.core.words import heading, percent


def plan_lines(plan: Plan, steps: bool = True) -> Iterator[str]:
    """The whole plan, line by line."""
    unit = display_unit(plan.unit)
    yield heading(plan)
    if plan.note:
        yield plan.note
    yield ""
    yield from _length(plan, unit)
    yield ""
    yield from cut_list(plan)
    yield ""
    yield "Count out"
    for kind, count in beads_to_count_out(plan):
        yield f"  {count:>5} {kind.name}"
    yield f"Lay ready: {join_words(list(tools(plan)))}."
    if plan.warnings:
        yield ""
        yield from (f"▲ {warning.text}" for warning in plan.warnings)
    yield ""
    yield from (f"Mind: {caution.text}" for caution in cautions(plan))
    if steps:
        for strand in plan.strands:
            yield ""
            yield from _steps(plan, strand, unit)


def _length(plan: Plan, unit: DisplayUnit) -> Iterator[str]:
    half_mm = (plan.finished_high95_mm - plan.finished_low95_mm) / 2
    own, other = show_both(plan.finished_length_mm, unit)
    shown = show_plus_minus(plan.finished_length_mm, half_mm, unit)
    yield f"Finished length {own} ({other}); 19 in 20 pieces within {shown}."
    if plan.target_mm is not None and plan.tolerance_mm is not None:
        yield f"Target {show(plan.target_mm, unit)}, tolerance {show(plan.tolerance_mm, unit)} either way."
    if plan.fit is not None:
        others = [f"{count.count} would give {show(count.finished_mm, unit)}" for count in plan.fit_others]
        yield f"Fit: {plan.fit} repeats; {join_words(others)}."
    if len(plan.strands) > 1:
        for strand in plan.strands:
            yield f"  {strand.label}: {show(strand.strand_length_mm, unit)} of beads and knots"


def cut_list(plan: Plan) -> Iterator[str]:
    """What to cut, with the risk it was chosen for, and the arm rule beside it."""
    unit = display_unit(plan.unit)
    yield "Cut"
    for cut in plan.cuts:
        own, other = show_both(cut.cut_mm, unit)
        name = f"{cut.name}: " if len(plan.cuts) > 1 else ""
        layers = f" for {cut.layers} layers" if cut.layers > 1 else ""
        yield f"  {name}{own} ({other}) of {plan.cord.name}{layers}"
        margin_mm = sum(plan.strands[entry].margin_mm for entry in cut.entries)
        risk = max(plan.strands[entry].run_out_risk for entry in cut.entries)
        yield f"    {show(margin_mm, unit)} a layer of it is margin: {percent(risk)} that it runs out"
        yield f"    {_arm(arm_rule(plan, cut.layers), cut.cut_mm, unit)}"
        if len(cut.entries) > 1:
            shares = [f"{plan.strands[e].label} {show(plan.strands[e].cut_mm, unit)}" for e in cut.entries]
            yield f"    shared between {join_words(shares)}"
    for extra in plan.extra_cords:
        yield f"  {show(extra.cut_mm, unit)} apart, for the {extra.purpose}"
    for kind in KNOT_KINDS:
        if any(dict(strand.knots)[kind] for strand in plan.strands):
            figures = plan.cord.knot(kind)
            source = {"design": "from the design", "card": "from the cord card", "estimate": "estimated"}[
                figures.source
            ]
            yield (
                f"  a {kind} knot swallows {figures.take_up_mm:.1f} mm a layer and is {figures.length_mm:.1f} mm long "
                f"({source})"
            )


def _arm(rule: ArmRule, cut_mm: float, unit: DisplayUnit) -> str:
    arms = "one arm" if rule.arms == 1 else f"{rule.arms} arms"
    if cut_mm < rule.low_mm:
        verdict = "the plan's cut is shorter"
    else:
        verdict = "the plan's cut is longer" if cut_mm > rule.high_mm else "about the same"
    return f"the arm rule says {arms}, {show(rule.low_mm, unit)} to {show(rule.high_mm, unit)}: {verdict}"


def _steps(plan: Plan, strand: PlannedStrand, unit: DisplayUnit) -> Iterator[str]:
    name = f"Steps, {strand.label}" if len(plan.strands) > 1 else "Steps"
    yield f"{name} (strand made, free cord a layer, after each)"
    width = len(str(len(strand.steps)))
    for step in strand.steps:
        figures = f"{show(step.strand_mm, unit)}, {show(step.free_cord_mm, unit)}"
        yield f"  {step.number:>{width}}  {step.text}{'' if step.text.endswith('.') else '.'}  [{figures}]"
