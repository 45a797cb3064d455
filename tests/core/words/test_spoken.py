"""Marks, units and fractions as words."""

from __future__ import annotations

import pytest

from companion.core.words.marks import for_everybody
from companion.core.words.spoken import spoken


@pytest.mark.parametrize(
    ("written", "heard"),
    [
        ("3 3/8 in", "3 and 3 eighths inches"),
        ("It is 46 in.", "It is 46 inches."),
        ("1 in short", "1 inch short"),
        ("3/8 in under your 8 in", "3 eighths of an inch under your 8 inches"),
        ("1/2 in", "half an inch"),
        ("1/4 in, 3/4 in, 5/16 in", "a quarter of an inch, 3 quarters of an inch, 5 sixteenths of an inch"),
        ("under 1/16 in", "under 1 sixteenth of an inch"),
        ("1 1/2 in of it is spare", "1 and a half inches of it is spare"),
        ("7 15/16 ± 3/8 in", "7 and 15 sixteenths inches plus or minus 3 eighths of an inch"),
        ("20.2 ± 0.5 cm", "20.2 centimetres plus or minus 0.5 centimetres"),
        ("86 mm (3 3/8 in) a layer", "86 millimetres (3 and 3 eighths inches) a layer"),
        ("−3 mm", "minus 3 millimetres"),
        ("3 in 4 that the cord ends, 1 in 100 pieces", "3 in 4 that the cord ends, 1 in 100 pieces"),
        ("There are 7 in the first, 9 in all.", "There are 7 in the first, 9 in all."),
        ("6.0 ± 0.4 mm a knot", "6.0 millimetres plus or minus 0.4 millimetres a knot"),
        ("▲ Off. △ Watch.", "Warning: Off. Warning: Watch."),
        ("«glass, then a single knot»", '"glass, then a single knot"'),
        ("Skerry bracelet · wrist 6 1/2 in", "Skerry bracelet, wrist 6 and a half inches"),
        (
            "take-up 6.00 ± 0.50 → 5.80 ± 0.30 mm",
            "take-up 6.00 plus or minus 0.50 to 5.80 millimetres plus or minus 0.30 millimetres",
        ),
        ("9⅜ in", "9 and 3 eighths inches"),
        ("three × two, 1–2 mm", "three times two, 1 to 2 millimetres"),
        ("`tallycord next`", '"tallycord next"'),
        ("skerry/3 and 12/7 stay", "skerry/3 and 12/7 stay"),
    ],
)
def test_how_it_is_heard(written, heard) -> None:
    assert spoken(written) == heard


def test_what_everybody_reads_has_its_warnings_in_words() -> None:
    assert for_everybody("▲ Off: 7 15/16 ± 3/8 in, «glass»") == 'Warning: Off: 7 15/16 ± 3/8 in, "glass"'


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("Your knots are 15 % tighter.", "Your knots are 15 percent tighter."),
        ("0.3% of pieces", "0.3 percent of pieces"),
        ("A length, such as 3 3/8 or 86 mm.", "A length, such as 3 and 3 eighths or 86 millimetres."),
        ("6 1/2 or so", "6 and a half or so"),
        ("1 2/0", "1 2/0"),
    ],
)
def test_shares_and_fractions_are_words(written, said) -> None:
    assert spoken(written) == said
