"""Lengths on the screen: the nearest division, computed unrounded, and readable back."""

from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.values.measures.lengths import read_length_mm
from companion.core.values.measures.show_lengths import (
    difference,
    difference_as_shown,
    display_unit,
    number_and_unit,
    over_or_short,
    show,
    show_both,
    show_plus_minus,
)
from tests.core.outside.lengths import SIXTEENTHS
from tests.core.outside.outside import rows

INCH_MM = 25.4  # exactly: Addendum to NBS Circular 572, 1960; NIST SP 811, appendix B
LENGTHS_MM = st.floats(0, 50_000, allow_nan=False)
UNITS = st.sampled_from(["mm", "cm", "in"])


@pytest.mark.parametrize(
    ("length_mm", "text"),
    [(238, "9 3/8 in"), (182, "7 3/16 in"), (410, "16 1/8 in"), (6.35, "1/4 in"), (25.4, "1 in"), (406.4, "16 in")],
)
def test_inches_to_the_nearest_sixteenth_in_lowest_terms(length_mm, text):
    assert show(length_mm, "in") == text  # from 1 in = 25.4 mm, NBS Circular 572; rounded by hand


@pytest.mark.parametrize(("length_mm", "published"), rows(SIXTEENTHS))
def test_the_nearest_sixteenth_that_was_published(length_mm, published):
    assert show(length_mm, "in") == published


@pytest.mark.parametrize(
    ("length_mm", "unit", "text"),
    [
        (238, "mm", "238 mm"),
        (238.125, "mm", "238 mm"),
        (82.1, "mm", "82 mm"),
        (6.4, "mm", "6.5 mm"),
        (6.25, "mm", "6.5 mm"),
        (99.7, "mm", "99.5 mm"),
        (99.75, "mm", "100 mm"),
        (100.4, "mm", "100 mm"),
        (1000, "mm", "1000 mm"),
        (238.125, "cm", "23.8 cm"),
        (82.4, "cm", "8.25 cm"),
        (200, "cm", "20 cm"),
        (0, "in", "0 in"),
        (0, "mm", "0 mm"),
        (1e-9, "in", "0 in"),  # what sums of floats leave behind
        (0.79, "in", "under 1/16 in"),
        (0.8, "in", "1/16 in"),
        (0.2, "mm", "under 0.5 mm"),
        (0.25, "mm", "0.5 mm"),
        (0.2, "cm", "under 0.05 cm"),
        (-6.35, "in", "−1/4 in"),
        (-182, "mm", "−182 mm"),
    ],
)
def test_a_length_on_the_screen(length_mm, unit, text):
    assert show(length_mm, unit) == text


@given(st.integers(0, 4000))
def test_every_sixteenth_is_shown_as_itself(sixteenths):
    length_mm = sixteenths * INCH_MM / 16
    text = show(length_mm, "in")
    assert read_length_mm(text) == Fraction(sixteenths * 127, 80)
    if "/" in text:
        over, parts = map(int, text.removesuffix(" in").split(" ")[-1].split("/"))
        assert over % 2 == 1
        assert parts in (2, 4, 8, 16)


@given(LENGTHS_MM, UNITS)
def test_what_is_shown_lies_within_half_a_division_and_shows_itself_again(length_mm, unit):
    text = show(length_mm, unit)
    shown_mm = float(read_length_mm(text.removeprefix("under ")))
    if text.startswith("under "):
        assert 0 < length_mm < shown_mm
        return
    division_mm = INCH_MM / 16 if unit == "in" else 0.5 if length_mm < 100 else 1.0
    assert abs(shown_mm - length_mm) <= division_mm / 2 + 1e-9 * max(1.0, length_mm)
    assert show(shown_mm, unit) == text


@given(LENGTHS_MM)
def test_inches_agree_with_a_second_way(length_mm):
    sixteenths = floor(Fraction(length_mm) * 80 / 127 + Fraction(1, 2))
    nearby = {
        Fraction(n * 127, 80) for n in (sixteenths, floor(length_mm / INCH_MM * 16 + 0.5))
    }  # a tie may fall either way
    text = show(length_mm, "in")
    assert text.startswith("under ") or read_length_mm(text) in nearby


def test_the_makers_unit_comes_first():
    assert show_both(82, "in") == ("3 1/4 in", "82 mm")
    assert show_both(238.125, "mm") == ("238 mm", "9 3/8 in")
    assert show_both(238.125, "cm") == ("23.8 cm", "9 3/8 in")


@pytest.mark.parametrize(
    ("mean_mm", "half_width_mm", "unit", "text"),
    [
        (201.6, 3.2, "in", "7 15/16 ± 1/8 in"),
        (201.6, 0.1, "in", "7 15/16 ± 1/16 in"),
        (201.6, 0, "in", "7 15/16 ± 1/16 in"),
        (201.6, 3.2, "mm", "202 ± 3 mm"),
        (201.6, 0.1, "mm", "202 ± 1 mm"),
        (82.1, 2.4, "mm", "82 ± 2.5 mm"),
        (82.4, 0.1, "mm", "82.5 ± 0.5 mm"),
        (82.4, 120, "mm", "82 ± 120 mm"),
        (201.6, 3.2, "cm", "20.2 ± 0.3 cm"),
        (0.1, 3.2, "in", "0 ± 1/8 in"),
        (-6.35, 3.2, "in", "−1/4 ± 1/8 in"),
    ],
)
def test_a_guess_shows_what_it_is_uncertain_by(mean_mm, half_width_mm, unit, text):
    assert show_plus_minus(mean_mm, half_width_mm, unit) == text


@given(LENGTHS_MM, LENGTHS_MM, UNITS)
def test_a_guess_is_never_shown_as_certain(mean_mm, half_width_mm, unit):
    half_width = show_plus_minus(mean_mm, half_width_mm, unit).split(" ± ")[1]
    assert read_length_mm(half_width) > 0


@pytest.mark.parametrize(
    ("length_mm", "unit", "text"),
    [
        (6.35, "in", "a quarter inch"),
        (-6.35, "in", "a quarter inch"),
        (12.7, "in", "half an inch"),
        (19.05, "in", "three quarters of an inch"),
        (25.4, "in", "an inch"),
        (8, "in", "5/16 in"),
        (31.75, "in", "1 1/4 in"),
        (0.3, "in", "under 1/16 in"),
        (0, "in", "0 in"),
        (-4.1, "mm", "4 mm"),
        (6.35, "cm", "0.65 cm"),
    ],
)
def test_a_difference_in_words(length_mm, unit, text):
    assert difference(length_mm, unit) == text


@pytest.mark.parametrize(
    ("length_mm", "unit", "text"),
    [(202, "mm", "2 mm over 200 mm"), (190.5, "in", "3/8 in short of 7 7/8 in"), (200, "mm", "0 mm short of 200 mm")],
)
def test_how_far_a_length_is_from_another(length_mm, unit, text):
    assert over_or_short(length_mm, 200, unit) == text


@pytest.mark.parametrize(
    ("length_mm", "aim_mm", "unit", "text"),
    [
        (239.4, 232.0, "mm", "7 mm"),  # shown 239 and 232
        (142.6, 150.0, "cm", "0.7 cm"),  # shown 14.3 and 15
        (150.3, 150.0, "mm", "0.5 mm"),  # shown alike: as it is
        (201.2, 203.2, "in", "1/16 in"),
        (194.0, 200.4, "in", "a quarter inch"),
    ],
)
def test_a_difference_agrees_with_the_lengths_beside_it(length_mm, aim_mm, unit, text) -> None:
    assert difference_as_shown(length_mm, aim_mm, unit) == text


def test_a_maker_reads_in_the_unit_they_write_in():
    shown = {unit: display_unit(unit) for unit in ("mm", "cm", "m", "in", "ft", "yd", None)}
    assert shown == {"mm": "mm", "cm": "cm", "m": "cm", "in": "in", "ft": "in", "yd": "in", None: "mm"}
    with pytest.raises(KeyError):
        display_unit("furlong")


@given(LENGTHS_MM.filter(lambda mm: mm > 2), UNITS)
def test_number_and_unit_are_what_is_shown(length_mm, unit):
    assert " ".join(number_and_unit(length_mm, unit)) == show(length_mm, unit)
