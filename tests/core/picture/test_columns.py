"""Columns for the parts of a strand: each its own, none far from the ruler, roundings that do not add up."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.core.picture.columns import MOST_DRIFT_COLUMNS, Part, StrandColumns, strand_columns
from companion.core.values.design import Bead, Knot, Space
from tests.core.hand_plans import hand_plan, skerry_columns, skerry_elements

BEAD, KNOT = Part("bead", "glass", "G"), Part("knot")
COLUMNS_PER_MM = {"in": Fraction(16) / Fraction("25.4"), "cm": Fraction(6, 10), "mm": Fraction(6, 10)}
HUNDREDTHS_MM = st.lists(st.integers(0, 3000), min_size=1, max_size=80)
UNIT = st.sampled_from(["in", "cm", "mm"])


@settings(max_examples=200)
@given(HUNDREDTHS_MM, UNIT)
def test_every_part_has_a_column_and_lies_where_the_ruler_says(hundredths, unit):
    lengths = [Fraction(n, 100) for n in hundredths]
    index = StrandColumns.of([BEAD] * len(lengths), [float(length) for length in lengths], unit)
    columns_per_mm = COLUMNS_PER_MM[unit] * index.scale.major_columns / (16 if unit == "in" else 6)
    end_mm = Fraction(0)
    for number, length in enumerate(lengths):
        begin, end = index.begin(number), index.ends[number]
        assert end > begin
        if index.to_scale:
            assert abs(begin - end_mm * columns_per_mm) <= MOST_DRIFT_COLUMNS
            assert abs(end - (end_mm + length) * columns_per_mm) <= MOST_DRIFT_COLUMNS
        end_mm += length
    assert index.begin(len(lengths)) == index.columns


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_ten_thousand_parts_do_not_drift(unit):
    """6.35 and 2.1 mm again and again: neither a whole number of columns in any unit."""
    index = StrandColumns.of([BEAD, KNOT] * 5000, [6.35, 2.1] * 5000, unit)
    assert index.to_scale
    assert abs(index.columns - 5000 * Fraction("8.45") * COLUMNS_PER_MM[unit]) <= MOST_DRIFT_COLUMNS


def test_short_parts_among_long_ones_stay_in_the_usual_scale():
    index = StrandColumns.of([BEAD, KNOT] * 50, [6.0, 0.4] * 50, "in")
    assert index.to_scale
    assert index.scale.major_columns == 16


def test_small_beads_and_knots_are_drawn_larger_rather_than_out_of_step():
    index = StrandColumns.of([BEAD, KNOT] * 100, [1.5, 0.9] * 100, "in")
    assert index.to_scale
    assert index.scale.major_columns > 16
    assert abs(index.columns - Fraction(240) / Fraction("25.4") * index.scale.major_columns) <= MOST_DRIFT_COLUMNS


def test_parts_too_short_for_any_scale_keep_a_column_each_and_say_so():
    index = StrandColumns.of([BEAD, KNOT] * 100, [0.01, 0.0] * 100, "cm")
    assert not index.to_scale
    assert index.columns == 200
    assert index.span_mm(0, 10) == pytest.approx((0, 0.05))


def test_a_column_knows_its_part():
    index = skerry_columns()
    for number in range(len(index.parts)):
        for column in range(index.begin(number), index.ends[number]):
            assert index.part_at(column) == number
    assert index.part_at(index.columns) == len(index.parts)


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_a_plan_s_strand_is_laid_out_by_its_own_beads_and_knots(unit):
    assert strand_columns(hand_plan(unit=unit), 0) == skerry_columns(unit)


def test_each_entry_has_its_own_index_and_bare_cord_its_own_part():
    plan = hand_plan(skerry_elements(), (Space(25.4), Bead("glass"), Knot("double")))
    index = strand_columns(plan, 1)
    assert [part.kind for part in index.parts] == ["bare", "bead", "knot"]
    assert index.begin(1) == 16
