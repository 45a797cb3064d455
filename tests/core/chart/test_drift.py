"""Measured less planned along the strand: the band against a dense solve, the gate against the forecast's own sum."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.chart.drift import MOST_PLACES, drifts
from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Mirror, Repeat, Size
from tests.core.forecast.light import CORD, KINDS, G, K, S, plan_of, planned
from tests.core.forecast.longstone import READ, longstone, measured
from tests.core.hand_designs import design
from tests.core.oracles.dense import Dense, closures_knots_mm
from tests.core.random_designs import random_design


def piece_of(plan: Plan, *offs: tuple[int, float], done: int | None = None) -> Piece:
    """A piece read at these steps of its only entry, each so far from planned."""
    readings = tuple(Measured("strand", step, planned(plan, step) + off, "") for step, off in offs)
    made = max((step for step, _ in offs), default=0) if done is None else done
    return Piece(plan.total_steps, made, readings=readings)


@pytest.mark.parametrize("seed", range(12))
def test_the_band_is_that_of_a_dense_solve(seed) -> None:
    """numpy, the whole piece written out: tests/core/oracles/dense.py. Faults left out: there it knows none."""
    plan = compile_plan(random_design(seed))
    strand, before = plan.strands[0], sum(step.kind == "start" for step in plan.strands[0].steps)
    strung = [step for step in strand.steps if step.kind == "string"]
    read = strung[len(strung) // 3]
    reading = Measured("strand", read.number, read.strand_mm * 1.02, "")
    piece = Piece(plan.total_steps, read.number, readings=(reading,))
    (drift,) = [one for one in drifts(Forecaster(plan), piece) if one.entry == 0]
    noise_mm2 = USUAL.ruler_step_mm**2 / 12 + USUAL.strand_handling_mm**2
    wanted = [[(0, strand.steps[one.step - 1].elements, "strand")] for one in drift.coming]
    laid_mm = reading.length_mm - closures_knots_mm(plan, 0, read.number)
    dense = Dense(plan, USUAL).condition([(0, read.elements, "strand", laid_mm, noise_mm2)], wanted)
    assert read.number >= before
    for one, (mean_mm, sd_mm) in zip(drift.coming, dense, strict=True):
        own_mm = closures_knots_mm(plan, 0, one.step)
        assert one.planned_mm + one.off.mean_mm == pytest.approx(mean_mm + own_mm, abs=1e-6)
        assert one.off.sd_mm == pytest.approx(sd_mm, abs=1e-6)


def test_it_goes_from_now_to_the_end_as_the_outlook_has_both() -> None:
    plan = plan_of([Repeat(40, (G, K))])
    forecaster, piece = Forecaster(plan, faults=True), piece_of(plan, (8, 0.5), (14, -6.0))
    (drift,) = drifts(forecaster, piece)
    (entry,) = forecaster.outlook(piece).entries
    first, last = drift.coming[0], drift.coming[-1]
    assert (first.step, first.planned_mm) == (14, drift.now_mm)
    assert first.planned_mm + first.off.mean_mm == pytest.approx(entry.strand_now.mean_mm)
    assert last.planned_mm == pytest.approx(plan.strands[0].strand_length_mm)
    for edge in ("low95_mm", "high95_mm"):
        assert last.planned_mm + getattr(last.off, edge) == pytest.approx(getattr(entry.strand_end, edge))
    steps = [one.step for one in drift.coming]
    assert steps == sorted(set(steps))
    assert len(steps) == MOST_PLACES + 1


def test_the_gate_is_where_the_piece_comes_out_at_its_tolerance() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    forecaster, piece = Forecaster(plan), piece_of(plan, (10, 2.0))
    (drift,), outlook = drifts(forecaster, piece), forecaster.outlook(piece)
    assert drift.gate is not None
    for off_mm, edge_mm in ((drift.gate.low_mm, -3.0), (drift.gate.high_mm, 3.0)):
        more_mm = drift.length_mm + off_mm - outlook.entries[0].strand_end.mean_mm
        assert outlook.finished.mean_mm + more_mm == pytest.approx(240.0 + edge_mm)


def test_a_side_has_the_gate_that_the_other_side_leaves_it() -> None:
    made = design([Mirror((Repeat(10, (G, K)),), (S,))], CORD, list(KINDS), Size("length", 180.0, 0, 3.0))
    from_the_middle = replace(made, strands=(replace(made.strands[0], work="from the middle"),))
    plan = compile_plan(from_the_middle)
    piece = Piece(plan.total_steps, len(plan.strands[0].steps) + 6)
    second, first = drifts(Forecaster(plan), piece)
    assert (second.entry, first.entry) == (1, 0)
    assert not first.coming
    assert second.gate is not None
    assert second.gate.high_mm - second.gate.low_mm == pytest.approx(6.0)


def test_a_reading_that_others_contradict_is_set_aside_and_a_missed_bead_has_its_place() -> None:
    plan = plan_of([Repeat(40, (G, K))])
    offs = (6, 0.0), (10, 30.0), (14, 0.2), (18, 0.4), (22, -8.0), (26, -8.0), (30, -8.2)
    (drift,) = drifts(Forecaster(plan, faults=True), piece_of(plan, *offs))
    assert [one.step for one in drift.readings if one.set_aside] == [10]
    assert [round(one.off_mm, 6) for one in drift.readings] == [off for _, off in offs]
    assert drift.suspected is not None
    assert drift.suspected.kind == "bead missed"
    assert planned(plan, 18) <= drift.suspected.planned_mm < planned(plan, 22)


def test_free_cord_is_no_reading_of_the_strand_nor_a_short_cut_a_fault_of_it() -> None:
    plan = plan_of([Repeat(40, (G, K))])
    step = plan.strands[0].steps[14]
    read = Measured("free", step.number, step.free_cord_mm - 150.0, "")
    piece = Piece(plan.total_steps, step.number, readings=(read,))
    forecaster = Forecaster(plan, faults=True)
    assert max(forecaster.outlook(piece).faults, key=lambda fault: fault.p).p > USUAL.suspect_above
    (drift,) = drifts(forecaster, piece)
    assert drift.readings == ()
    assert drift.suspected is None


def test_without_a_target_there_is_no_gate_and_when_all_is_strung_nothing_to_come() -> None:
    plan = compile_plan(design([Repeat(12, (G, K))], CORD, list(KINDS)))
    (drift,) = drifts(Forecaster(plan), piece_of(plan, done=0))
    assert drift.gate is None
    assert drift.coming[0].off.sd_mm == 0.0
    last = max(step.number for step in plan.strands[0].steps if step.kind == "string")
    (drift,) = drifts(Forecaster(plan), piece_of(plan, done=last))
    assert drift.coming == ()


def test_how_it_came_out_stands_beside_what_closes_it() -> None:
    plan = plan_of([Repeat(30, (G, K))])
    forecaster = Forecaster(plan)
    piece = replace(piece_of(plan, (20, 1.0), done=plan.total_steps), state="finished", finished_mm=242.0)
    (drift,) = drifts(forecaster, piece)
    assert drift.gate is not None
    assert drift.finished_off_mm == pytest.approx((drift.gate.low_mm + drift.gate.high_mm) / 2 + 2.0)


def test_of_several_strands_the_one_in_hand_comes_first(patterns) -> None:
    from companion.storage.design.files import read_design

    made = read_design(patterns / "inner-farne-strands.yaml").design
    assert made is not None
    plan = compile_plan(made)
    piece = Piece(plan.total_steps, len(plan.strands[0].steps) + 12)
    found = drifts(Forecaster(plan), piece)
    assert [one.entry for one in found] == [1, 0]
    assert [one.gate is not None for one in found] == [number in plan.longest for number in (1, 0)]


def test_what_came_out_as_wanted_has_nothing_that_may_have_gone_wrong() -> None:
    plan = longstone()
    piece, outlook = measured(plan, *READ[:4])
    assert outlook.verdict == "recount"
    done = replace(piece, done=plan.total_steps, state="finished")
    suspected = {
        inches: drifts(Forecaster(plan, faults=True), replace(done, finished_mm=inches * 25.4))[0].suspected
        for inches in (17.875, 17.25)
    }
    assert suspected[17.875] is None
    assert suspected[17.25] is not None
