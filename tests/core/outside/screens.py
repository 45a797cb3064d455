"""What others say of colours and of the width of text on a screen."""

from __future__ import annotations

from tests.core.outside.outside import Outside

COLOURS = "tests/core/picture/test_colours.py"
BY_CHANNELS = "relative luminance of the three channels, the formula of WCAG 2.2"

DEQUE_CONTRASTS = Outside(
    "companion.core.picture.colours.contrast_ratio",
    "Deque University, Check Text and Background for Sufficient Color Contrast, examples",
    BY_CHANNELS,
    f"{COLOURS}::test_the_contrast_ratio_is_the_published_one",
    (
        ("#000000", "#ffff00", 19.56, 0.005),
        ("#0000ff", "#ffa500", 4.35, 0.005),
        ("#ffffff", "#800080", 9.42, 0.005),
        ("#008000", "#ff0000", 1.28, 0.005),
    ),
    weak="the page was not found again when it was looked up",
)
PRIMARY_CONTRASTS = Outside(
    "companion.core.picture.colours.contrast_ratio",
    "ecss.tomgdow.com, Color Contrasts, both tables: cyan, magenta and red on white, blue on black",
    BY_CHANNELS,
    f"{COLOURS}::test_the_contrast_ratio_is_the_published_one",
    (
        ("#00ffff", "#ffffff", 1.25, 0.005),
        ("#ff00ff", "#ffffff", 3.13, 0.01),
        ("#ff0000", "#ffffff", 4.0, 0.005),
        ("#0000ff", "#000000", 2.44, 0.005),
    ),
)
GREY_CONTRASTS = Outside(
    "companion.core.picture.colours.contrast_ratio",
    "AuditBuffet, pattern ab-000065: the greys that just pass 7 and 4.5 to 1 on white",
    BY_CHANNELS,
    f"{COLOURS}::test_the_contrast_ratio_is_the_published_one",
    (("#595959", "#ffffff", 7.0, 0.05), ("#767676", "#ffffff", 4.54, 0.005)),
)

SHORT_CODES = Outside(
    "companion.core.picture.colours.colour_of",
    "W3C, CSS Color Short Notation (2005/MWI/BPWG/techs): #fb0 expands to #ffbb00; W3Schools, CSS HEX Colors: #b58",
    "each digit is doubled, then read by twos",
    f"{COLOURS}::test_a_number_that_was_published",
    (("#fb0", (0xFF, 0xBB, 0x00)), ("#b58", (0xBB, 0x55, 0x88))),
)
LONG_CODES = Outside(
    "companion.core.picture.colours.colour_of",
    "Manning liveBook, Hexadecimal color notation, after CSS in Depth, 11.2.2: #80c090 is 128, 192 and 144",
    "digits read by twos",
    f"{COLOURS}::test_a_number_that_was_published",
    (("#80c090", (128, 192, 144)),),
)

WIDTHS = Outside(
    "companion.core.values.text.plain",
    "jquast/wcwidth, its tests: a Japanese greeting of 19 cells, a wave of 5; word-width, README: 18",
    "the East Asian width of each character, by the standard library's Unicode data",
    "tests/core/values/test_text.py::test_columns_that_others_count",
    (("コンニチハ, セカイ!", 19), ("Hi\U0001f44b!", 5), ("越过长城，走向世界", 18)),
)

ALL = (DEQUE_CONTRASTS, PRIMARY_CONTRASTS, GREY_CONTRASTS, SHORT_CODES, LONG_CODES, WIDTHS)
