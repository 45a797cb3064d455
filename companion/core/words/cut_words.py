"""What to cut, and what a cord cut otherwise would mean, in words."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from companion.core.cord.cord import KnotFigures
from companion.core.plan.cut import ArmRule, arm_rule, cut_risk
from companion.core.plan.plan import Cut, Plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import KNOT_KINDS, KnotKind
from companion.core.values.lengths import UNNOTICED_MM
from companion.core.values.show_lengths import DisplayUnit, display_unit, show, show_both
from companion.core.values.text import count_of, join_words, percent, share
from companion.core.words.notices import Level, Notice

RISKY = 0.25  # chance of running out from which on a short cut is marked as off; our own choice


class CutLine(Struct, frozen=True):
    """One line of the cut list: `depth` says how far it is set in; `strong`: the heading, and the first length."""

    text: str
    depth: int = 0
    strong: bool = False


def cut_list(plan: Plan) -> Iterator[CutLine]:
    """What to cut, with the risk it was chosen for, the arm rule beside it, and what the knots take."""
    unit = display_unit(plan.unit)
    yield CutLine("Cut", strong=True)
    for number, cut in enumerate(plan.cuts):
        yield CutLine(_length(plan, cut, unit), 1, strong=number == 0)
        yield from (CutLine(text, 2) for text in _reasons(plan, cut, unit))
    for extra in plan.extra_cords:
        yield CutLine(f"{show(extra.cut_mm, unit)} apart, for the {extra.purpose}", 1)
    for kind in KNOT_KINDS:
        if any(dict(strand.knots)[kind] for strand in plan.strands):
            yield CutLine(_knot(plan, kind), 1)


def _length(plan: Plan, cut: Cut, unit: DisplayUnit) -> str:
    own, other = show_both(cut.cut_mm, unit)
    name = f"{cut.name}: " if len(plan.cuts) > 1 else ""
    layers = f" for {cut.layers} layers" if cut.layers > 1 else ""
    return f"{name}{own} ({other}) of {plan.cord.name}{layers}"


def _reasons(plan: Plan, cut: Cut, unit: DisplayUnit) -> Iterator[str]:
    margin_mm = sum(plan.strands[entry].margin_mm for entry in cut.entries)
    risk = max(plan.strands[entry].run_out_risk for entry in cut.entries)
    yield f"{show(margin_mm, unit)} a layer of it is margin: {percent(risk)} that it runs out"
    yield _arm(arm_rule(plan, cut.layers), cut.cut_mm, unit)
    if len(cut.entries) > 1:
        shares = [f"{plan.strands[e].label} {show(plan.strands[e].cut_mm, unit)}" for e in cut.entries]
        yield f"shared between {join_words(shares)}"


def _arm(rule: ArmRule, cut_mm: float, unit: DisplayUnit) -> str:
    arms = count_of(rule.arms, "arm", "one")
    if cut_mm < rule.low_mm:
        verdict = "the plan's cut is shorter"
    else:
        verdict = "the plan's cut is longer" if cut_mm > rule.high_mm else "about the same"
    return f"the arm rule says {arms}, {show(rule.low_mm, unit)} to {show(rule.high_mm, unit)}: {verdict}"


def _knot(plan: Plan, kind: KnotKind) -> str:
    figures = plan.cord.knot(kind)
    card = _from_card(plan.cord.card, figures)
    source = {"design": "from the design", "card": card, "estimate": "estimated"}[figures.source]
    takes, long = f"{figures.take_up_mm:.1f} mm a layer", f"{figures.length_mm:.1f} mm long"
    return f"a {kind} knot swallows {takes} and is {long} ({source})"


def _from_card(card: str | None, figures: KnotFigures) -> str:
    half = f", the {figures.estimated} estimated" if figures.estimated else ""
    return f"from the cord card {card}{half}"


# -- a cord cut otherwise ---------------------------------------------------------------------------------------------


def cut_lines(plan: Plan, cut: int, length_mm: float) -> tuple[Notice, ...]:
    """What it would mean to cut a cord (the plan's number `cut`) to that length, whole, mm: its run-out risk."""
    planned_mm = plan.cuts[cut].cut_mm
    short_mm = planned_mm - length_mm
    risk = cut_risk(plan, cut, length_mm)
    if short_mm <= UNNOTICED_MM:
        return (Notice("quiet", f"As long as planned, or longer: {percent(risk)} that it runs out."),)
    short = f"{show(short_mm, display_unit(plan.unit))} shorter than planned"
    if not cut_questioned(plan, cut, length_mm):
        return (Notice("quiet", f"A little short, {short}: {percent(risk)} that it runs out."),)
    level: Level = "off" if risk > RISKY else "watch"
    return (
        Notice(level, f"{share(short_mm / planned_mm)} short, {short}."),
        Notice(level, f"The chance that it runs out before the end: {percent(risk)}. A fresh cord would be surer."),
    )


def cut_questioned(plan: Plan, cut: int, length_mm: float) -> bool:
    """Whether a cut is so much shorter than planned that it is asked about before the first knot."""
    return length_mm <= plan.cuts[cut].cut_mm * (1 - USUAL.short_cut_questioned)
