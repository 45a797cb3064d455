"""Columns for the parts of a strand: each its own, none far from the ruler, roundings that do not add up."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.picture.columns import MOST_STRETCH, Part, StrandColumns, strand_columns
from companion.core.values.design import Bead, Knot, Space
from tests.core.hand_plans import hand_plan, skerry_columns, skerry_elements

BEAD, KNOT = Part("bead", "glass", "G"), Part("knot")
COLUMNS_PER_MM = {"in": Fraction(16) / Fraction("25.4"), "cm": Fraction(6, 10), "mm": Fraction(6, 10)}
HUNDREDTHS_MM = st.lists(st.integers(0, 3000), min_size=1, max_size=80)
UNIT = st.sampled_from(["in", "cm", "mm"])


@given(HUNDREDTHS_MM, UNIT)
def test_parts_of_one_length_are_of_one_width_wherever_they_lie(hundredths, unit):
    """Each the whole number of columns nearest its own length, one at least; nothing hangs on what lies before it."""
    lengths = [Fraction(n, 100) for n in hundredths]
    index = StrandColumns.of([BEAD] * len(lengths), [float(length) for length in lengths], unit)
    columns_per_mm = COLUMNS_PER_MM[unit] * index.scale.major_columns / (16 if unit == "in" else 6)
    for number, length in enumerate(lengths):
        columns = index.ends[number] - index.begin(number)
        assert columns == 1 or abs(columns - length * columns_per_mm) <= Fraction(1, 2) + Fraction(1, 10**9)
        assert columns >= 1
    assert index.begin(len(lengths)) == index.columns


@given(HUNDREDTHS_MM, UNIT, st.floats(0, 1))
def test_the_ruler_finds_every_place_in_the_columns_of_its_part(hundredths, unit, share):
    lengths = [n / 100 for n in hundredths]
    index = StrandColumns.of([BEAD] * len(lengths), lengths, unit)
    place_mm = share * index.ends_mm[-1]
    column = index.column_at(place_mm)
    assert 0 <= column <= index.columns
    part = min(index.part_at(int(column)), len(lengths) - 1)
    begin_mm = index.ends_mm[part - 1] if part else 0.0
    assert begin_mm - 1e-6 <= place_mm <= index.ends_mm[part] + 1e-6
    if lengths[part]:
        assert index.place_mm(index.begin(part)) == pytest.approx(begin_mm)


@given(st.lists(st.sampled_from([BEAD, KNOT, Part("bare")]), min_size=1, max_size=60), st.integers(1, 40), st.data())
def test_rows_hold_the_strand_whole_and_end_at_knots(parts, room, data):
    lengths = [data.draw(st.sampled_from([0.0, 2.0, 6.35, 40.0])) for _ in parts]
    index = StrandColumns.of(parts, lengths, "cm")
    firsts = index.rows(room)
    assert firsts[0] == 0
    for first, end in pairwise([*firsts, index.columns]):
        assert 0 < end - first <= room
        within = [place for place in index.breaks if first < place <= first + room]
        if end < index.columns and within:
            assert end == within[-1]
        elif end < index.columns:
            whole = [place for place in index.ends if first < place <= first + room]
            assert end == (whole[-1] if whole else first + room)


def test_ten_thousand_parts_fold_into_rows_that_look_alike():
    """6.35 and 2.1 mm again and again: every pair has as many columns as the first."""
    index = StrandColumns.of([BEAD, KNOT] * 5000, [6.35, 2.1] * 5000, "in")
    assert index.to_scale
    assert index.columns == 5000 * index.ends[1]
    assert index.rows(72) == tuple(range(0, index.columns, 72 // index.ends[1] * index.ends[1]))


def test_short_parts_among_long_ones_stay_in_the_usual_scale():
    index = StrandColumns.of([BEAD, KNOT] * 50, [6.0, 0.4] * 50, "in")
    assert index.to_scale
    assert index.scale.major_columns == 16


def test_small_beads_and_knots_are_drawn_larger_rather_than_far_too_wide():
    index = StrandColumns.of([BEAD, KNOT] * 100, [0.9, 0.5] * 100, "in")
    assert index.to_scale
    assert index.scale.major_columns > 16
    assert index.columns <= MOST_STRETCH * 140 / 25.4 * index.scale.major_columns


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
