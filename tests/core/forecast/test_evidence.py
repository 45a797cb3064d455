"""The forecast against one dense solve over every knot and bead, on 200 random pieces with random readings."""

from __future__ import annotations

import random

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Strand
from tests.core.oracles.dense import Dense, closures_knots_mm
from tests.core.random_designs import random_design


def small_plans(seeds):
    for seed in seeds:
        plan = compile_plan(random_design(seed))
        if sum(len(strand.elements) for strand in plan.strands) <= 260:
            yield seed, plan


def drawn_readings(draw: random.Random, plan, done: int) -> list[Measured]:
    readings = []
    for _ in range(draw.randint(0, 7)):
        step = draw.randint(1, done)
        entry, number = plan.place(step)
        planned = plan.strands[entry].steps[number - 1]
        if planned.elements == 0:
            continue
        if draw.random() < 0.6:
            value = planned.strand_mm * draw.uniform(0.93, 1.07)
            readings.append(Measured("strand", step, value, "", draw.choice([1.0, 25.4 / 16])))
        else:
            value = planned.free_cord_mm + draw.uniform(-40, 40)
            readings.append(Measured("free", step, value, "", 1.0))
    return readings


def as_dense(plan, reading: Measured):
    entry, number = plan.place(reading.step)
    strand, step = plan.strands[entry], plan.strands[entry].steps[number - 1]
    ruler = reading.ruler_step_mm**2 / 12
    if reading.kind == "strand":
        laid = reading.length_mm - closures_knots_mm(plan, entry, number)
        return entry, step.elements, "strand", laid, ruler + USUAL.strand_handling_mm**2
    fixed = strand.start_tail_mm + strand.start_closure_cord_mm
    if number == len(strand.steps):
        fixed += strand.end_closure_cord_mm
    used = strand.cut_mm / strand.layers - fixed - reading.length_mm
    return entry, step.elements, "cord", used, ruler + USUAL.free_cord_handling_mm**2


@pytest.mark.parametrize("block", range(10))
def test_mean_and_sd_equal_a_dense_solve(block: int) -> None:
    checked = 0
    for seed, plan in small_plans(range(1000 + 60 * block, 1060 + 60 * block)):
        draw = random.Random(seed)
        done = draw.randint(1, plan.total_steps)
        readings = drawn_readings(draw, plan, done)
        piece = Piece(total_steps=plan.total_steps, done=done, cuts=as_needed(plan), readings=tuple(readings))
        outlook = Forecaster(plan, faults=False).outlook(piece)
        wanted = [[(entry, len(plan.strands[entry].elements), "settled") for entry in plan.longest]]
        for entry, strand in enumerate(plan.strands):
            wanted.append([(entry, len(strand.elements), "cord")])
        (finished, *cords) = Dense(plan, USUAL).condition([as_dense(plan, r) for r in readings], wanted)
        closure = sum(plan.strands[entry].closure_length_mm for entry in plan.longest)
        assert outlook.finished.mean_mm == pytest.approx(finished[0] + closure, abs=1e-6)
        assert outlook.finished.sd_mm == pytest.approx(finished[1], abs=1e-6)
        for entry, (mean, sd) in enumerate(cords):
            strand = plan.strands[entry]
            fixed = strand.start_tail_mm + strand.start_closure_cord_mm + strand.end_closure_cord_mm
            free = outlook.entries[entry].free_end
            assert free.mean_mm == pytest.approx(strand.cut_mm / strand.layers - fixed - mean, abs=1e-6)
            assert free.sd_mm == pytest.approx(sd, abs=1e-6)
        checked += 1
        if checked == 20:
            break
    assert checked == 20


def as_needed(plan) -> tuple[CutEntered, ...]:
    """Each cord cut to what the plan needs, not rounded up."""
    return tuple(CutEntered(number, cut.cut_mm, "") for number, cut in enumerate(plan.cuts))


def test_the_cut_rests_on_the_same_sum() -> None:
    """The margin's spread is the forecast's, before any reading; and the chance of too little is the plan's own."""
    for seed, plan in small_plans(range(40)):
        outlook = Forecaster(plan, faults=False).outlook(Piece(total_steps=plan.total_steps, cuts=as_needed(plan)))
        for entry, strand in enumerate(plan.strands):
            _, sd = Dense(plan, USUAL).condition([], [[(entry, len(strand.elements), "cord")]])[0]
            assert strand.need_sd_mm == pytest.approx(sd, abs=1e-6), seed
            cord = outlook.entries[entry].cord
            assert cord.p_run_out + cord.p_short_to_hold == pytest.approx(strand.run_out_risk, abs=1e-12)
        band = Dense(plan, USUAL).condition([], [[(e, len(plan.strands[e].elements), "strand") for e in plan.longest]])
        assert plan.finished_high95_mm - plan.finished_length_mm == pytest.approx(1.959964 * band[0][1], rel=1e-6)


def test_with_everything_switched_off_the_plan_is_certain() -> None:
    still = replace(
        USUAL, piece_cv=0, bead_lot_cv=0, bead_scatter_cv=0, tension_walk_by_end_cv=0, knot_scatter_cv=0
    )  # fmt: skip
    design = random_design(4)
    numbers = tuple(design.cord.knots)
    assert numbers, "this seed should write its knots' numbers"
    plan = compile_plan(design, assumptions=replace(still, estimate_take_up_cv=0, estimate_length_cv=0))
    assert all(strand.margin_mm == pytest.approx(0, abs=1e-9) for strand in plan.strands)


def test_two_readings_of_one_place_in_a_piece_of_kilometres() -> None:
    """What is known before and a ruler's error lie fifteen orders of magnitude apart: rounding must not hide it."""
    cord = CordDesign("rope", 100.0, 1, knots=(("single", KnotNumbers(take_up_mm=1e6, length_mm=1e6)),))
    layout = (Repeat(200, (Bead("b"), Knot("single"))),)
    plan = compile_plan(Design("Long", cord, (BeadKind("b", "b", 1e6, 1e6),), (Strand(layout),)))
    step = plan.total_steps // 2
    reading = Measured("strand", step, plan.strands[0].steps[step - 1].strand_mm, "")
    outlook = Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, step, readings=(reading, reading)))
    settled_mm = plan.finished_length_mm - USUAL.settling_share * 200 * 1e6
    assert outlook.finished.mean_mm == pytest.approx(settled_mm, rel=1e-3)
