"""The ruler: marks over the places that they name, the unit once, no number cut off."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.picture.ruler import SCALES, ruler

INCHES, CENTIMETRES, MILLIMETRES = (SCALES[unit][0] for unit in ("in", "cm", "mm"))
ANY_SCALE = st.sampled_from([scale for scales in SCALES.values() for scale in scales])


def even(scale, first: int, columns: int) -> str:
    """The ruler over a strand that is everywhere in the scale, from one column of it on."""
    per_mm = float(scale.columns_per_mm)
    return ruler(scale, columns, first / per_mm, (first + columns) / per_mm, lambda mm: round(mm * per_mm) - first)


def test_inches_have_sixteen_columns_and_a_tick_at_each_quarter():
    assert even(INCHES, 0, 65) == "0 in┬───┬───┬───1───┬───┬───┬───2───┬───┬───┬───3───┬───┬───┬───4"


def test_centimetres_have_six_columns_and_a_tick_at_each_half():
    assert even(CENTIMETRES, 54, 20) == "9 cm──10─┬──11─┬──12"


def test_millimetres_are_numbered_by_tens():
    assert even(MILLIMETRES, 52, 21) == "──90 mm─100┬──110┬──┬"[:21]


def test_a_stretch_may_begin_and_end_anywhere():
    assert even(INCHES, 26, 20) == "──┬───2 in┬───┬───┬─"


def test_a_number_that_would_be_cut_off_is_a_tick_and_the_next_has_the_unit():
    assert even(CENTIMETRES, 55, 6) == "──┬──┬"
    assert even(CENTIMETRES, 55, 10) == "──┬──10 cm"
    assert even(CENTIMETRES, 55, 9) == "──┬──┬──┬"


def test_marks_go_with_the_strand_where_its_parts_are_wider_than_the_scale():
    assert ruler(CENTIMETRES, 24, 0.0, 30.0, lambda mm: round(0.8 * mm)) == "0 cm┬───1───┬───2───┬───"


def test_an_inch_is_sixteen_columns_exactly():
    assert INCHES.columns_per_mm * Fraction("25.4") == 16
    assert CENTIMETRES.columns_per_mm * 10 == 6


@given(ANY_SCALE, st.integers(0, 3000), st.integers(1, 200), st.floats(0.7, 1.5))
def test_every_number_stands_where_its_place_is(scale, first, columns, stretch):
    per_mm = float(scale.columns_per_mm) * stretch

    def column_at(mm: float) -> int:
        return round(mm * per_mm) - first

    drawn = ruler(scale, columns, first / per_mm, (first + columns) / per_mm, column_at)
    assert len(drawn) == columns
    assert drawn.count(scale.unit) <= 1
    column = 0
    while column < columns:
        digits = drawn[column:].partition("─")[0].partition("┬")[0].partition(" ")[0]
        if digits.isdigit():
            inches_or_cm = int(digits) / (10 if scale.unit == "mm" else 1)
            assert column_at(inches_or_cm * scale.major_mm) == column
        column += max(1, len(digits))


@pytest.mark.parametrize("scale", [INCHES, CENTIMETRES, MILLIMETRES])
def test_there_are_as_many_marks_as_there_are_places(scale):
    marks = even(scale, 1, 300)
    numbers = sum(part.isdigit() for part in marks.replace("┬", "─").replace(f" {scale.unit}", "").split("─"))
    assert numbers >= 300 // scale.major_columns - 1  # the last may be cut off
