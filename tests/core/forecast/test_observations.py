"""Readings and counts as the covariance model takes them."""

from __future__ import annotations

import pytest

from companion.core.forecast.faults.segment import BeadCount, Segment
from companion.core.forecast.observations import count_observations, elements_made, observations
from companion.core.journal.events import CutEntered, Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.plan.uncertainty.covariance import CORD, STRAND, CovarianceModel, Quantity
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Design, Repeat, Strand
from tests.core.forecast.light import CORD as SILK
from tests.core.forecast.light import KINDS, G, K


@pytest.fixture
def plan():
    """Two strands, each of ten beads with their knots."""
    layout = (Repeat(10, (G, K)),)
    return compile_plan(Design("Two", SILK, KINDS, (Strand(layout, name="a"), Strand(layout, name="b"))))


def at(plan, entry: int, beads: int) -> int:
    """The piece's step after which so many beads of an entry are strung."""
    before = sum(step.kind == "start" for step in plan.strands[entry].steps)
    return plan.piece_step(entry, before + beads)


def seen(plan, *readings: Measured, **more):
    model = CovarianceModel.of(plan.cord, plan.beads, [strand.elements for strand in plan.strands])
    return observations(plan, model, USUAL, Piece(plan.total_steps, plan.total_steps, readings=readings, **more))


def test_a_strand_reading_is_of_its_own_entry_and_scaled(plan) -> None:
    (one,) = seen(plan, Measured("strand", at(plan, 1, 3), 31.0, "", 2.0))
    assert one.quantity == Quantity(1, 6, STRAND)
    assert (one.value_mm, one.scaled) == (31.0, True)
    assert one.planned_mm == pytest.approx(3 * 8)
    assert one.noise_mm2 == pytest.approx(2.0**2 / 12 + USUAL.strand_handling_mm**2)


def test_a_free_reading_is_of_the_cord_used_since_the_first_element(plan) -> None:
    step = plan.strands[0].steps[at(plan, 0, 3) - 1]
    cut = CutEntered(0, plan.cuts[0].cut_mm + 40, "longer")
    (one,) = seen(plan, Measured("free", step.number, step.free_cord_mm, ""), cuts=(cut,))
    assert (one.quantity, one.scaled) == (Quantity(0, 6, CORD), False)
    assert one.value_mm == pytest.approx(one.planned_mm + 20)  # 20 mm a layer more was there, and is used
    assert one.noise_mm2 == pytest.approx(1 / 12 + USUAL.free_cord_handling_mm**2)


def test_a_reading_before_the_first_element_says_nothing_of_knots(plan) -> None:
    assert (
        seen(plan, Measured("free", 0, 700.0, ""), Measured("free", 1, 640.0, ""), Measured("strand", 1, 0, "")) == ()
    )


def test_a_count_over_two_entries_is_one_for_each(plan) -> None:
    counted = (Recounted(at(plan, 0, 4), at(plan, 0, 1)), Recounted(at(plan, 1, 2), at(plan, 0, 7), -1))
    found = count_observations(plan, Piece(plan.total_steps, plan.total_steps, counted=counted))
    assert found == (
        BeadCount(Segment(0, 2, 8), 0, 0),
        BeadCount(Segment(0, 14, 20), -1, 1),
        BeadCount(Segment(1, 0, 4), -1, 1),
    )


def test_elements_made_of_the_second_entry(plan) -> None:
    whole, last = plan.total_steps, plan.piece_step(0, len(plan.strands[0].steps))
    steps = (0, last, last + 1, at(plan, 1, 0), at(plan, 1, 1), at(plan, 1, 10), whole)
    assert [elements_made(plan, 1, step) for step in steps] == [0, 0, 0, 0, 2, 20, 20]
