"""The contract of `tallycord plan --json`: lengths in mm, floats, unrounded. Keys may be added, never renamed."""

from __future__ import annotations

from typing import Any

from companion.core.closures.joint import Finding
from companion.core.plan.cut import arm_rule
from companion.core.plan.plan import Plan, PlannedStrand, Step
from companion.core.plan.tray import findings, spare_beads, tools
from companion.core.values.design import KNOT_KINDS


def plan_json(plan: Plan) -> dict[str, Any]:
    """The plan as plain values that json.dumps takes."""
    return {
        "format": 1,
        "design": plan.design,
        "target_mm": plan.target_mm,
        "tolerance_mm": plan.tolerance_mm,
        "finished_length_mm": plan.finished_length_mm,
        "finished_low95_mm": plan.finished_low95_mm,
        "finished_high95_mm": plan.finished_high95_mm,
        "fit": plan.fit,
        "fit_others": [{"fit": other.count, "finished_length_mm": other.finished_mm} for other in plan.fit_others],
        "strands": [_strand(strand) for strand in plan.strands],
        "extra_cords": [{"for": extra.purpose, "cut_mm": extra.cut_mm} for extra in plan.extra_cords],
        "findings": [_finding(one) for one in findings(plan)],
        "tools": list(tools(plan)),
        "spare_beads": {kind.key: count for kind, count in spare_beads(plan)},
        "opened_mm": plan.opened_mm,
        "cuts": [_cut(plan, number) for number in range(len(plan.cuts))],
        "knots_from": {kind: plan.cord.knot(kind).source for kind in KNOT_KINDS},
        "warnings": [{"code": w.code, "text": w.text, "where": w.where} for w in plan.warnings],
    }


def _finding(one: Finding) -> dict[str, Any]:
    return {"name": one.name, "count": one.count, "size_mm": one.size_mm, "hole_mm": one.hole_mm}


def _cut(plan: Plan, number: int) -> dict[str, Any]:
    cut = plan.cuts[number]
    rule = arm_rule(plan, cut.layers)
    return {
        "name": cut.name,
        "cut_mm": cut.cut_mm,
        "entries": [plan.strands[entry].label for entry in cut.entries],
        "arm_rule": {"arms": rule.arms, "low_mm": rule.low_mm, "high_mm": rule.high_mm},
    }


def _strand(strand: PlannedStrand) -> dict[str, Any]:
    return {
        "name": strand.name,
        "entry": strand.label,
        "layers": strand.layers,
        "side": strand.side,
        "strand_length_mm": strand.strand_length_mm,
        "closure_length_mm": strand.closure_length_mm,
        "take_up_mm": strand.take_up_mm,
        "start_tail_mm": strand.start_tail_mm,
        "start_closure_cord_mm": strand.start_closure_cord_mm,
        "end_closure_cord_mm": strand.end_closure_cord_mm,
        "end_tail_mm": strand.end_tail_mm,
        "working_allowance_mm": strand.working_allowance_mm,
        "margin_mm": strand.margin_mm,
        "cut_mm": strand.cut_mm,
        "run_out_risk": strand.run_out_risk,
        "beads": dict(strand.beads),
        "knots": dict(strand.knots),
        "steps": [_step(step) for step in strand.steps],
    }


def _step(step: Step) -> dict[str, Any]:
    return {
        "number": step.number,
        "kind": step.kind,
        "text": step.text,
        "beads": list(step.beads),
        "knot": step.knot,
        "strand_mm": step.strand_mm,
        "cord_used_mm": step.cord_used_mm,
        "free_cord_mm": step.free_cord_mm,
    }
