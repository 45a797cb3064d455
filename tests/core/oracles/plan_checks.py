"""What has to hold of every plan: the identities of the contract, and every number against the second computation."""

from __future__ import annotations

import pytest

from companion.core.plan.layout import LayoutCount
from companion.core.plan.plan import Plan
from companion.core.values.design import Design
from tests.core.oracles.second_way import SecondWay

NEAR = 1e-6


def check_identities(plan: Plan) -> None:
    """The identities of the contract, to 1e-6 mm."""
    for strand in plan.strands:
        assert strand.cut_mm == pytest.approx(strand.layers * (strand.need_mm + strand.margin_mm), abs=NEAR)
        before = strand.start_tail_mm + strand.start_closure_cord_mm
        strings = [step for step in strand.steps if step.kind == "string"]
        starts = [step for step in strand.steps if step.kind == "start"]
        ends = [step for step in strand.steps if step.kind == "end"]
        assert strand.steps == (*starts, *strings, *ends)
        assert [step.number for step in strand.steps] == list(range(1, len(strand.steps) + 1))
        assert strings[-1].strand_mm == pytest.approx(strand.strand_length_mm, abs=NEAR)
        assert all(step.strand_mm == 0 and step.cord_used_mm == pytest.approx(before) for step in starts)
        assert all(step.strand_mm == strings[-1].strand_mm for step in ends)
        used = before + strand.strand_length_mm + strand.take_up_mm + strand.end_closure_cord_mm
        assert ends[-1].cord_used_mm == pytest.approx(used, abs=NEAR)
        for step in strand.steps:
            assert step.free_cord_mm == pytest.approx(strand.cut_mm / strand.layers - step.cord_used_mm, abs=NEAR)
            assert len(step.beads) <= 10
        beads = [key for step in strings for key in step.beads]
        assert {key: beads.count(key) for key in set(beads)} == dict(strand.beads)
        knots = [step.knot for step in strings if step.knot]
        assert {kind: knots.count(kind) for kind, _ in strand.knots} == dict(strand.knots)
    whole = sum(plan.strands[n].strand_length_mm + plan.strands[n].closure_length_mm for n in plan.longest)
    assert plan.finished_length_mm == pytest.approx(whole, abs=NEAR)
    assert plan.finished_low95_mm <= plan.finished_length_mm <= plan.finished_high95_mm
    cuts = sum(cut.cut_mm for cut in plan.cuts)
    assert cuts == pytest.approx(sum(strand.cut_mm for strand in plan.strands), abs=NEAR)


def check_second_way(design: Design, plan: Plan) -> None:
    """Every number of the plan, worked out apart from the planner."""
    second = SecondWay(design)
    has_fit = any(LayoutCount.of(strand.layout).holds_fit for strand in design.strands)
    assert plan.fit == (second.fit() if has_fit else None)
    count = plan.fit or 1
    assert plan.finished_length_mm == pytest.approx(float(second.longest(count)[1]), abs=NEAR)
    assert plan.target_mm == (None if design.size is None else pytest.approx(second.target_mm(count), abs=NEAR))
    for other in plan.fit_others:
        assert other.finished_mm == pytest.approx(float(second.longest(other.count)[1]), abs=NEAR)
    entries = second.entries(count)
    assert len(entries) == len(plan.strands)
    for strand, figures in zip(plan.strands, entries, strict=True):
        for name in ("start_tail_mm", "end_tail_mm", "take_up_mm"):
            assert getattr(strand, name) == pytest.approx(float(getattr(figures, name)), abs=NEAR)
        assert strand.start_closure_cord_mm == pytest.approx(float(figures.start_cord_mm), abs=NEAR)
        assert strand.end_closure_cord_mm == pytest.approx(float(figures.end_cord_mm), abs=NEAR)
        assert strand.closure_length_mm == pytest.approx(float(figures.closure_mm), abs=NEAR)
        assert strand.strand_length_mm == pytest.approx(float(figures.strand_mm), abs=NEAR)
        assert dict(strand.beads) == figures.beads
        assert {kind: n for kind, n in strand.knots if n} == figures.knots
        strings = [step for step in strand.steps if step.kind == "string"]
        assert [list(step.beads) for step in strings] == [
            [value for kind, value in step if kind == "bead"] for step in figures.steps
        ]
        assert [step.knot for step in strings] == [
            next((value for kind, value in step if kind == "knot"), None) for step in figures.steps
        ]
        for step, (strand_mm, used_mm) in zip(strings, figures.after_step, strict=True):
            assert step.strand_mm == pytest.approx(float(strand_mm), abs=NEAR)
            assert step.cord_used_mm == pytest.approx(float(used_mm), abs=NEAR)
