"""compare and reach: a design made in other ways, and how much of it a cord is enough for. They save nothing."""

from __future__ import annotations

import argparse
from typing import Any

from companion.cli.arguments import add_design
from companion.cli.design_report import chosen_card, planned_design
from companion.cli.printing import is_for_the_ear, say, say_json
from companion.cli.typed_lengths import length_mm
from companion.core.plan.plan import Plan
from companion.core.plan.tray import beads_to_count_out, findings
from companion.core.values.design import KNOT_KINDS
from companion.core.values.text import plain
from companion.core.variants.hours import Hand, seconds_to_make
from companion.core.variants.reach import Made, Reach, needs_mm
from companion.core.variants.variants import Variant
from companion.core.words.compared.compare_words import (
    comparison_lines,
    comparison_sentences,
    used_mm,
    way_words,
)
from companion.core.words.compared.reach_words import reach_lines
from companion.core.words.notices import heading
from companion.workshop import Workshop


def declare_compare(command: argparse.ArgumentParser) -> None:
    """What `compare` takes."""
    add_design(command)
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")


def run_compare(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Variants of a design side by side."""
    planned = planned_design(workshop, arguments.design, arguments.card)
    if planned.plan is None:
        return 1
    found, hand = workshop.designs.ready(planned, chosen_card(arguments.card)).variants(), workshop.hand()
    if arguments.json:
        say_json(_comparison_json(found, planned.plan, hand))
        return 0
    say(f"{heading(planned.plan)}, made in other ways")
    lines = comparison_sentences if is_for_the_ear() else comparison_lines
    for line in lines(found, planned.plan, hand):
        say(line)
    return 0


def _comparison_json(found: tuple[Variant, ...], plan: Plan, hand: Hand) -> dict[str, Any]:
    """The comparison as plain values; keys may be added, never renamed."""
    return {
        "format": 1,
        "design": plan.design,
        "target_mm": plan.target_mm,
        "tolerance_mm": plan.tolerance_mm,
        "own_pace": hand.own,
        "variants": [_variant_json(one, plan, hand) for one in found],
    }


def _variant_json(variant: Variant, designed: Plan, hand: Hand) -> dict[str, Any]:
    plan = variant.plan
    named = {
        "what": variant.way.axis,
        "name": way_words(variant.way, designed),
        "as_designed": variant.as_designed,
        "estimated": variant.estimated,
        "why_not": variant.why_not or None,
    }
    return named | (
        {}
        if plan is None
        else _plan_json(plan, variant.fit)
        | {
            "hours": seconds_to_make(plan, hand) / 3600,
            "new_warnings": [{"code": one.code, "text": one.text, "where": one.where} for one in variant.new_warnings],
        }
    )


def _plan_json(plan: Plan, fit: int | None) -> dict[str, Any]:
    """What a piece comes to, mm: the same figures as `plan --json` has, over all strands."""
    return {
        "fit": fit,
        "finished_length_mm": plan.finished_length_mm,
        "cut_mm": needs_mm(plan),
        "cord_used_mm": used_mm(plan),
        "beads": {kind.key: count for kind, count in beads_to_count_out(plan)},
        "knots": {kind: sum(dict(strand.knots)[kind] for strand in plan.strands) for kind in KNOT_KINDS},
        "findings": [{"name": one.name, "count": one.count, "size_mm": one.size_mm} for one in findings(plan)],
    }


# -- reach ------------------------------------------------------------------------------------------------------------


def declare_reach(command: argparse.ArgumentParser) -> None:
    """What `reach` takes."""
    add_design(command)
    command.add_argument("--cord", metavar="LENGTH", required=True, help="the cord that you have, all of it")
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")


def run_reach(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """The most that a cord makes of a design. Exit code 1 where it makes none of it."""
    cord_mm = length_mm(arguments.cord, above_zero=True)
    planned = planned_design(workshop, arguments.design, arguments.card)
    if planned.plan is None:
        return 1
    found = workshop.designs.ready(planned, chosen_card(arguments.card)).reach(cord_mm)
    if arguments.json:
        say_json(_reach_json(found))
    else:
        say(f"{heading(planned.plan)}, from {plain(arguments.cord, 40)} of cord")
        for line in reach_lines(found):
            say(line)
    return 1 if found.made is None else 0


def _reach_json(found: Reach) -> dict[str, Any]:
    """The answer as plain values; keys may be added, never renamed."""
    plan = found.designed.plan
    return {
        "format": 1,
        "design": plan.design,
        "cord_mm": found.cord_mm,
        "run_out_risk": plan.risk,
        "target_mm": plan.target_mm,
        "tolerance_mm": plan.tolerance_mm,
        "made": _made_json(found.made, found.cord_mm),
        "next": _made_json(found.beyond, found.cord_mm),
        "as_designed": _made_json(found.designed, found.cord_mm),
    }


def _made_json(made: Made | None, cord_mm: float) -> dict[str, Any] | None:
    """`left_mm`: what is left of the cord; below 0: what is missing."""
    return None if made is None else _plan_json(made.plan, made.count or None) | {"left_mm": cord_mm - made.needs_mm}
