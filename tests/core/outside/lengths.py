"""Published lengths: fractions of an inch in millimetres, and millimetres as a ruler's nearest sixteenth."""

from __future__ import annotations

from tests.core.outside.outside import Outside

FRACTIONS = Outside(
    "companion.core.values.measures.lengths.read_length_mm",
    "Aeronautical Engineer's Data Book, table 2.11, Imperial-metric conversions, page 23",
    "the fraction is read and multiplied exactly; only the inch itself is a constant",
    "tests/core/values/measures/test_lengths.py::test_fractions_of_an_inch_that_were_published",
    (
        ("1/16 in", 1.58750),
        ("5/64 in", 1.98437),
        ("7/32 in", 5.55625),
        ("3/8 in", 9.52500),
        ("11/16 in", 17.46250),
        ("59/64 in", 23.41562),
    ),
)

SIXTEENTHS = Outside(
    "companion.core.values.measures.show_lengths.show",
    "Rings & Things, Inch-mm page: which fraction so many mm almost or just over are",
    "the nearest sixteenth is worked out, in lowest terms",
    "tests/core/values/measures/test_show_lengths.py::test_the_nearest_sixteenth_that_was_published",
    (
        (3, "1/8 in"),
        (5, "3/16 in"),
        (8, "5/16 in"),
        (10, "3/8 in"),
        (14, "9/16 in"),
        (18, "11/16 in"),
        (21, "13/16 in"),
        (24, "15/16 in"),
    ),
)

ALL = (FRACTIONS, SIXTEENTHS)
