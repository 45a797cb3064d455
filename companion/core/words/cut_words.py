"""What to cut, in words: shared by the plan on paper and the screen before the first knot."""

from __future__ import annotations

from collections.abc import Iterator

from companion.core.cord.cord import KnotFigures
from companion.core.plan.cut import ArmRule, arm_rule
from companion.core.plan.plan import Plan
from companion.core.values.design import KNOT_KINDS
from companion.core.values.show_lengths import DisplayUnit, display_unit, show, show_both
from companion.core.values.text import join_words
from companion.core.words.verdict_words import percent


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
            source = {
                "design": "from the design",
                "card": _from_card(plan.cord.card, figures),
                "estimate": "estimated",
            }[figures.source]
            yield (
                f"  a {kind} knot swallows {figures.take_up_mm:.1f} mm a layer and is {figures.length_mm:.1f} mm long "
                f"({source})"
            )


def _from_card(card: str | None, figures: KnotFigures) -> str:
    half = f", the {figures.estimated} estimated" if figures.estimated else ""
    return f"from the cord card {card}{half}"


def _arm(rule: ArmRule, cut_mm: float, unit: DisplayUnit) -> str:
    arms = "one arm" if rule.arms == 1 else f"{rule.arms} arms"
    if cut_mm < rule.low_mm:
        verdict = "the plan's cut is shorter"
    else:
        verdict = "the plan's cut is longer" if cut_mm > rule.high_mm else "about the same"
    return f"the arm rule says {arms}, {show(rule.low_mm, unit)} to {show(rule.high_mm, unit)}: {verdict}"
