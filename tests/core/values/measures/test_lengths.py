"""Lengths as makers write them: every spelling exact, everything else refused with what to write instead."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.values.measures.length_grammar import MM_PER_UNIT
from companion.core.values.measures.lengths import LengthError, read_length_mm, unit_of, whole_number
from tests.core.outside.lengths import FRACTIONS
from tests.core.outside.outside import rows

KM = 1_000_000
VULGAR = {"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅓": (1, 3), "⅔": (2, 3)}
VULGAR |= {"⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
INCH_SIGNS, FOOT_SIGNS = ("in", '"', "″"), ("ft", "'", "′")
SPACES = st.sampled_from(["", " ", "  ", "\u00a0", "\u202f"])
GAPS = st.sampled_from([" ", "  ", "\u00a0"])


# -- outside values ---------------------------------------------------------------------------------------------------


def test_the_units_are_exact():
    # Addendum to NBS Circular 572, Calibration of Line Standards of Length, 1960: the yard is 0.9144 m from 1 July
    # 1959, hence 1 in = 25.4 mm exactly; NIST SP 811, appendix B, says the same.
    yard = Fraction("914.4")
    assert {unit: MM_PER_UNIT[unit] for unit in ("in", "ft", "yd")} == {"in": yard / 36, "ft": yard / 3, "yd": yard}
    assert read_length_mm("1 in") == Fraction("25.4")
    assert read_length_mm("1 ft") == Fraction("304.8")
    assert read_length_mm("1 yd") == Fraction("914.4")
    assert [read_length_mm(f"1 {unit}") for unit in ("mm", "cm", "m")] == [1, 10, 1000]  # the SI's prefixes


@pytest.mark.parametrize(("text", "published_mm"), rows(FRACTIONS))
def test_fractions_of_an_inch_that_were_published(text, published_mm):
    assert float(read_length_mm(text)) == pytest.approx(published_mm, abs=1e-5)


@pytest.mark.parametrize(
    "text", ["9 3/8 in", '9⅜"', "9.375 in", "9 ⅜ in", "9⅜in", "9,3750 in", "9 3⁄8 ″", "75/8 in", "9 6/16”"]
)
def test_one_length_in_many_spellings(text):
    assert read_length_mm(text) == Fraction("238.125")  # 9.375 × 25.4, from NBS Circular 572 as above


@pytest.mark.parametrize(
    ("text", "length_mm"),
    [
        ("8 in", "203.2"),
        ("16 in", "406.4"),
        ("2 ft 6 in", "762"),
        ("2' 6\"", "762"),
        ("2′6″", "762"),
        ("2’ 6”", "762"),
        ("2ft6in", "762"),
        ("2 ft 6 1/2 in", "774.7"),
        ("1/16 in", "1.5875"),
        ('6 1/2"', "165.1"),
        ("2 1/2 ft", "762"),
        ("1/2 yd", "457.2"),
    ],
)
def test_inches_feet_and_yards(text, length_mm):
    assert read_length_mm(text) == Fraction(length_mm)  # whole multiples of 25.4 and its sixteenth, NBS Circular 572


@pytest.mark.parametrize(
    ("text", "length_mm"),
    [
        ("238 mm", "238"),
        ("23.8 cm", "238"),
        ("23,8 cm", "238"),
        (".35 mm", "0.35"),
        (",35 mm", "0.35"),
        ("0,125 mm", "0.125"),  # begins with 0: no thousands mark could stand there
        ("0 mm", "0"),
        ("0.45mm", "0.45"),
        ("1.10 m", "1100"),
        ("007 mm", "7"),
        ("1000,500 mm", "1000.5"),  # four digits before the comma: a decimal one
        ("1,50 mm", "1.5"),
        ("1.000 mm", "1"),
        ("1000 m", "1000000"),
        ("  7\u00a0mm ", "7"),
    ],
)
def test_metric_lengths(text, length_mm):
    assert read_length_mm(text) == Fraction(length_mm)


def test_a_bare_number_takes_the_default_unit_and_a_written_one_keeps_its_own():
    assert read_length_mm("3/4", "in") == Fraction("19.05")
    assert read_length_mm(".35", "mm") == Fraction("0.35")
    assert read_length_mm("7", "cm") == 70
    assert read_length_mm("7 mm", "in") == 7


@pytest.mark.parametrize(
    ("text", "unit"),
    [("9 3/8 in", "in"), ('7"', "in"), ("2 ft 6 in", "in"), ("2'", "ft"), ("23,8 cm", "cm"), ("7", None)],
)
def test_the_unit_that_was_written(text, unit):
    assert unit_of(text) == unit


# -- both ways: written out by the test, read back exactly ------------------------------------------------------------


@given(st.integers(0, 10**6), st.sampled_from(["mm", "cm", "m"]), st.sampled_from(".,"), SPACES)
def test_a_decimal_comes_back_exactly(micrometres, unit, mark, space):
    power = {"mm": 3, "cm": 4, "m": 6}[unit]
    digits = str(micrometres).rjust(power + 1, "0")
    number = f"{digits[:-power]}{mark}{digits[-power:]}"
    if mark == "," and unit == "mm" and not number.startswith("0") and len(number) <= 7:
        with pytest.raises(LengthError, match="thousands"):
            read_length_mm(number + space + unit)
    else:
        assert read_length_mm(number + space + unit) * 1000 == micrometres


@given(st.integers(0, 400), st.integers(1, 64), st.data(), st.sampled_from(INCH_SIGNS), SPACES, GAPS)
def test_a_mixed_number_comes_back_exactly(whole, parts, data, sign, space, gap):
    over = data.draw(st.integers(0, parts - 1))
    length = read_length_mm(f"{whole}{gap}{over}/{parts}{space}{sign}")
    assert length * 5 * parts == (whole * parts + over) * 127


@given(st.integers(0, 400), st.sampled_from(sorted(VULGAR)), st.sampled_from(INCH_SIGNS), SPACES, SPACES)
def test_a_printed_fraction_comes_back_exactly(whole, character, sign, before, after):
    over, parts = VULGAR[character]
    written = f"{whole}{before}{character}{after}{sign}"
    assert read_length_mm(written) == read_length_mm(f"{whole} {over}/{parts} in")
    assert read_length_mm(f"{character} in") == Fraction(127, 5) * over / parts


@given(st.integers(0, 100), st.integers(0, 191), st.sampled_from(FOOT_SIGNS), st.sampled_from(INCH_SIGNS), SPACES)
def test_feet_and_inches_come_back_exactly(feet, sixteenths, foot, inch, space):
    whole, over = divmod(sixteenths, 16)
    length = read_length_mm(f"{feet}{space}{foot}{space}{whole} {over}/16{space}{inch}")
    assert length * 80 == (feet * 12 * 16 + sixteenths) * 127


@given(st.text("0123456789.,/ ½¾³٣７-+eE'\"′″inmftcyd\t\n\x1b\u202e", max_size=45))
def test_any_text_is_read_within_bounds_or_refused_in_one_clean_line(text):
    refused = ""
    try:
        length = read_length_mm(text, "mm")
    except LengthError as error:
        length, refused = Fraction(-1), str(error)
    if refused:
        assert refused.isprintable()
        assert re.fullmatch(r"Found .+; expected .+: .+\.", refused)
    else:
        assert 0 <= length <= KM
        assert len(text) <= 40
        assert not re.search(r"[-+eE³٣７\x1b\u202e\n]", text)


# -- refused ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "found", "hint"),
    [
        ("7", "‘7’, without a unit", "write 7 mm or 7 in"),
        (".35", "without a unit", "write .35 mm or .35 in"),
        ("3/4", "without a unit", "write 3/4 mm or 3/4 in"),
        ("", "nothing", "write it like"),
        (" \u00a0", "nothing", "write it like"),
        ("1,000 mm", "thousands mark", "write 1000 mm, or 1.000 mm"),
        ("19,750 mm", "thousands mark", "write 19750 mm, or 19.750 mm"),
        ("1,000", "thousands mark", "write 1000, or 1.000"),
        ("2 ft 1,500 in", "thousands mark", "write 2 ft 1500 in, or 2 ft 1.500 in"),
        ("1,000,000 mm", "more than one point or comma", "write 1.5"),
        ("1.2.3 mm", "more than one point or comma", "write 1.5"),
        ("1 000 mm", "space inside the number", "close up"),
        ("9-9/8 in", "a fraction of 1 or more", "9 3/8 in"),
        ("-3/8 in", "sign", "without the sign"),
        ("9--3/8 in", "sign", "without the sign"),
        ("5-6 in", "sign", "without the sign"),
        ("-5 mm", "sign", "without the sign"),
        ("+5 mm", "sign", "without the sign"),
        ("−5 mm", "sign", "without the sign"),
        ("1e3 mm", "an e in the number", "in full"),
        ("1E3 mm", "an e in the number", "in full"),
        ("1/0 in", "a 0 below the line", "3/4"),
        ("7 1/00 in", "a 0 below the line", "3/4"),
        ("1//2 in", "‘1//2 in’", "9 3/8 in"),
        ("9 5/4 in", "a fraction of 1 or more", "9 3/8 in"),
        ("9.5 3/8 in", "‘9.5 3/8 in’", "write it like"),
        ("7 1/2 1/2 in", "‘7 1/2 1/2 in’", "write it like"),
        ("½½ in", "‘½½ in’", "write it like"),
        ("٧ mm", "digits other than 0 to 9", "write it like"),
        ("７ mm", "digits other than 0 to 9", "write it like"),
        ("7² mm", "digits other than 0 to 9", "write it like"),
        ("nan mm", "‘nan mm’", "write it like"),
        ("inf", "‘inf’", "write it like"),
        ("mm", "‘mm’", "write it like"),
        ("in 7", "‘in 7’", "write it like"),
        ("1_0 mm", "‘1_0 mm’", "write it like"),
        ("7 mm mm", "‘7 mm mm’", "write it like"),
        ("7 Inches", "unit that isn't known", "write 7 in"),
        ("7 IN", "unit that isn't known", "write 7 in"),
        ("9 3/8 in.", "unit that isn't known", "write 9 3/8 in"),
        ("1 km", "unit that isn't known", "write it like"),
        ("7''", "two marks for feet", "inches"),
        ("2' 6", "have no mark", "write 2' 6 in"),
        ("1 m 20 cm", "more than one unit", "120 cm"),
        ("2 yd 1 ft", "more than one unit", "2 ft 6 in"),
        ("6 in 2 ft", "more than one unit", "2 ft 6 in"),
        ("2.5 ft 6 in", "more than one unit", "2 ft 6 in"),
        ("1001 m", "‘1001 m’", "look at the unit"),
        ("1000000.1 mm", "‘1000000.1 mm’", "look at the unit"),
        ("7\nmm", "‘7 mm’", "write"),
        ("7" + " " * 38 + "mm", "a length of 41 characters", "write it like"),
    ],
)
def test_a_length_refused_says_what_to_write(text, found, hint):
    with pytest.raises(LengthError) as refused:
        read_length_mm(text)
    assert found in refused.value.found
    assert hint in refused.value.hint
    assert (
        str(refused.value) == f"Found {refused.value.found}; expected {refused.value.expected}: {refused.value.hint}."
    )


@pytest.mark.parametrize(
    "text", ["7", "3/4", "1,000 mm", "9-9/8 in", "7 Inches", "9 3/8 in.", "2' 6", "9 5/4 in", "1/0 in", "x"]
)
def test_what_a_refusal_proposes_can_be_read(text):
    with pytest.raises(LengthError) as refused:
        read_length_mm(text)
    proposals = re.findall(r"[0-9][0-9 /.']*(?:mm|cm|in)", refused.value.hint) or re.findall(
        r"[0-9]/[0-9]", refused.value.hint
    )
    assert proposals
    for proposal in proposals:
        assert read_length_mm(proposal, "in") > 0


def test_forty_characters_are_taken_and_one_more_is_not():
    assert read_length_mm("0." + "0" * 34 + "1 mm") == Fraction(1, 10**35)
    with pytest.raises(LengthError, match="41 characters"):
        read_length_mm("0." + "0" * 35 + "1 mm")


def test_nothing_is_refused_only_where_it_must_be_above():
    assert read_length_mm("0 in") == 0
    for text in ("0 in", "0/3 in", "0.0 mm"):
        with pytest.raises(LengthError, match="above 0"):
            read_length_mm(text, above_zero=True)
    assert read_length_mm("0.001 mm", above_zero=True) == Fraction(1, 1000)


# -- counts -----------------------------------------------------------------------------------------------------------


@given(st.integers(1, 100_000), st.integers(0, 5))
def test_a_count_is_read_as_its_digits(count, noughts):
    assert whole_number("0" * noughts + str(count)) == count


@pytest.mark.parametrize(
    "text",
    [
        "",
        "0",
        "000",
        "100001",
        "1000000000",
        "-1",
        "+1",
        "1.0",
        "1,000",
        "1e3",
        "0x10",
        "1_0",
        "٣",
        "３",
        "²",
        "½",
        "fit",
        "9" * 5000,
    ],
)
def test_a_count_that_is_none_is_refused(text):
    with pytest.raises(LengthError, match="a whole number from 1 to 100,000") as refused:
        whole_number(text)
    assert len(str(refused.value)) < 200


@pytest.mark.parametrize(
    ("text", "sixteenths"),
    [
        ("2-5/16 in", 37), ("2 5/16 inches", 37), ("2-5/16", 37), ("2 - 5/16 inch", 37), ("2–5/16″", 37),
        ("2-⅜ in", 38), ("1 inch", 16), ("1/2 inch", 8), ("2 feet 6 inches", 480), ("1 foot", 192), ("1 yard", 576),
        ("2 ins", 32),
    ],
)  # fmt: skip
def test_inches_as_makers_write_them_in_words_and_with_a_hyphen(text, sixteenths):
    assert read_length_mm(text, "in") == sixteenths * Fraction(254, 160)


@pytest.mark.parametrize(
    ("text", "length_mm"),
    [("3 metres", 3000), ("1 meter", 1000), ("23,8 centimetres", 238), ("5 millimeters", 5), ("12 cms", 120)],
)
def test_metric_units_in_words(text, length_mm):
    assert read_length_mm(text) == length_mm
