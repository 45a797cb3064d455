"""The ruler: marks where they belong, whole numbers only, rows that begin at one."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.picture.ruler import SCALES, fold_columns, ruler

INCHES, CENTIMETRES, MILLIMETRES = (SCALES[unit][0] for unit in ("in", "cm", "mm"))
ANY_SCALE = st.sampled_from([scale for scales in SCALES.values() for scale in scales])


def test_inches_have_sixteen_columns_and_a_tick_at_each_quarter():
    assert ruler(INCHES, 0, 64, 74) == "0───┬───┬───┬───1───┬───┬───┬───2───┬───┬───┬───3───┬───┬───┬───4 in"


def test_centimetres_have_six_columns_and_a_tick_at_each_half():
    assert ruler(CENTIMETRES, 54, 18, 30) == "9──┬──10─┬──11─┬──12 cm"


def test_millimetres_are_numbered_by_tens():
    assert ruler(MILLIMETRES, 54, 18, 30) == "90─┬──100┬──110┬──120 mm"


def test_a_stretch_may_begin_and_end_anywhere():
    assert ruler(INCHES, 26, 20) == "──┬───2───┬───┬───┬─"


def test_a_number_that_would_be_cut_off_is_a_tick():
    assert ruler(CENTIMETRES, 55, 6) == "──┬──┬"
    assert ruler(CENTIMETRES, 55, 7) == "──┬──10"


def test_an_end_between_numbers_is_not_closed():
    assert ruler(INCHES, 0, 20, 30) == "0───┬───┬───┬───1───"


def test_the_closing_number_drops_its_unit_and_then_itself_where_room_is_short():
    assert ruler(INCHES, 0, 16, 20).endswith("1 in")
    assert ruler(INCHES, 0, 16, 19) == ruler(INCHES, 0, 16, 17) == "0───┬───┬───┬───1"
    assert ruler(INCHES, 0, 16, 16) == "0───┬───┬───┬───"


def test_an_inch_is_sixteen_columns_exactly():
    assert INCHES.columns_per_mm * Fraction("25.4") == 16
    assert CENTIMETRES.columns_per_mm * 10 == 6


@given(ANY_SCALE, st.integers(0, 3000), st.integers(1, 200))
def test_marks_stand_where_the_unit_says(scale, first, columns):
    drawn = ruler(scale, first, columns)
    assert len(drawn) == columns
    unit_mm = Fraction("25.4") if scale.unit == "in" else Fraction(10)
    covered_to = first
    for column in range(first, first + columns):
        number = column / (scale.columns_per_mm * unit_mm)
        label = str(int(number) * (10 if scale.unit == "mm" else 1))
        shown = drawn[column - first :]
        if number.denominator == 1 and len(label) <= len(shown):
            assert shown.startswith(label)
            covered_to = column + len(label)
        elif column >= covered_to:
            is_tick = number * scale.major_columns % scale.minor_columns == 0
            assert shown[0] == ("┬" if is_tick else "─")


@given(ANY_SCALE, st.integers(1, 200), st.integers(0, 20000))
def test_a_row_fits_with_its_closing_number_and_rows_begin_at_a_number(scale, room, total):
    row = fold_columns(scale, room, total)
    assert 1 <= row <= room
    if row < room:
        assert row % scale.major_columns == 0
        for first in range(0, total, row):
            to_next_number = -(-min(row, total - first) // scale.major_columns) * scale.major_columns
            assert len(ruler(scale, first, to_next_number, room)) <= room
            assert total <= room or ruler(scale, first, to_next_number, room).endswith(scale.unit)
    elif total > room:
        assert room < scale.major_columns + len(scale.closing_label(total + scale.major_columns))


@pytest.mark.parametrize(("room", "total", "row"), [(74, 112, 60), (110, 200, 90), (74, 72, 74), (50, 112, 42)])
def test_long_rows_of_centimetres_begin_at_fives_unless_one_row_is_enough(room, total, row):
    assert fold_columns(CENTIMETRES, room, total) == row
