"""Readings and counts as the covariance model takes them."""

from __future__ import annotations

import pytest

from companion.core.forecast.hypothesis import BeadCount, Segment
from companion.core.forecast.observations import bead_counts, elements_made, observations
from companion.core.journal.events import CutEntered, Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.covariance import CORD, STRAND, CovarianceModel, Quantity
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Design, Repeat, Strand
from tests.core.forecast.light import CORD as SILK
from tests.core.forecast.light import KINDS, G, K


@pytest.fixture
def plan():
    """Two strands, each with one start step, ten beads with their knots, and one end step."""
    layout = (Repeat(10, (G, K)),)
    return compile_plan(Design("Two", SILK, KINDS, (Strand(layout, name="a"), Strand(layout, name="b"))))


def seen(plan, *readings: Measured, **more):
    model = CovarianceModel.of(plan.cord, plan.beads, [strand.elements for strand in plan.strands])
    return observations(plan, model, USUAL, Piece(plan.total_steps, 24, readings=readings, **more))


def test_a_strand_reading_is_of_its_own_entry_and_scaled(plan) -> None:
    (one,) = seen(plan, Measured("strand", 16, 31.0, "", 2.0))
    assert one.quantity == Quantity(1, 6, STRAND)
    assert (one.value_mm, one.scaled) == (31.0, True)
    assert one.planned_mm == pytest.approx(3 * 8)
    assert one.noise_mm2 == pytest.approx(2.0**2 / 12 + USUAL.strand_handling_mm**2)


def test_a_free_reading_is_of_the_cord_used_since_the_first_element(plan) -> None:
    step = plan.strands[0].steps[3]
    cut = CutEntered(0, plan.cuts[0].cut_mm + 40, "longer")
    (one,) = seen(plan, Measured("free", 4, step.free_cord_mm, ""), cuts=(cut,))
    assert (one.quantity, one.scaled) == (Quantity(0, 6, CORD), False)
    assert one.value_mm == pytest.approx(one.planned_mm + 20)  # 20 mm a layer more was there, and is used
    assert one.noise_mm2 == pytest.approx(1 / 12 + USUAL.free_cord_handling_mm**2)


def test_a_reading_before_the_first_element_says_nothing_of_knots(plan) -> None:
    assert (
        seen(plan, Measured("free", 0, 700.0, ""), Measured("free", 1, 640.0, ""), Measured("strand", 1, 0, "")) == ()
    )


def test_a_count_over_two_entries_is_one_for_each(plan) -> None:
    counted = (Recounted(5, 2), Recounted(15, 8, -1))
    found = bead_counts(plan, Piece(plan.total_steps, 24, counted=counted))
    assert found == (
        BeadCount(Segment(0, 2, 8), 0, 0),
        BeadCount(Segment(0, 14, 20), -1, 1),
        BeadCount(Segment(1, 0, 4), -1, 1),
    )


@pytest.mark.parametrize(("step", "made"), [(0, 0), (12, 0), (13, 0), (14, 2), (23, 20), (24, 20)])
def test_elements_made_of_the_second_entry(plan, step, made) -> None:
    assert elements_made(plan, 1, step) == made
