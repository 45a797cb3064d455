"""Pieces that others made or planned: their beads, their length, the cord and the time that they took."""

from __future__ import annotations

from tests.core.outside.outside import Outside

COUNTS = "tests/core/plan/test_fit.py::test_beads_on_a_strand_that_were_published"
BY_LENGTHS = "the count whose lengths, added up, come nearest"

# Each row: bead, spacer after it (0: none), length to be reached, mm; how many of the beads; how many more or fewer.
# A chart that rounds its beads per inch first is off by one or two in a hundred.
GEM_SOCIETY_COUNTS = Outside(
    "companion.core.plan.fit.choose_fit",
    "International Gem Society, Bead and Necklace Size Charts: beads per 16 and per 24 in",
    BY_LENGTHS,
    COUNTS,
    ((3, 0, 16 * 25.4, 133, 3), (5, 0, 16 * 25.4, 80, 2), (7, 0, 24 * 25.4, 86, 2), (10, 0, 24 * 25.4, 60, 1)),
)
MEADOR_COUNTS = Outside(
    "companion.core.plan.fit.choose_fit",
    "K. Meador's chart (lorisglassworks.blogspot.com, August 2010): round beads on a 16 in strand",
    BY_LENGTHS,
    COUNTS,
    ((2, 0, 16 * 25.4, 203, 1), (6, 0, 16 * 25.4, 67, 1), (12, 0, 16 * 25.4, 34, 1)),
)
SUMMERLAND_COUNT = Outside(
    "companion.core.plan.fit.choose_fit",
    "Summerland Beads, How to Calculate the Number of Beads Needed For A Project: 57.15 of 8 mm in 18 in",
    BY_LENGTHS,
    COUNTS,
    ((8, 0, 18 * 25.4, 57, 0),),
)
SPACER_COUNTS = Outside(
    "companion.core.plan.fit.choose_fit",
    "tools.gera.services, bead count calculator: 18 cm of 8 mm rounds, 22; with a 4 mm spacer between each, 15",
    BY_LENGTHS,
    COUNTS,
    ((8, 0, 180.0, 22, 1), (8, 4, 180.0, 15, 0)),
    weak="the page was not found again when it was looked up",
)

# The sources do not say which silk: the thinnest and the thickest that such pearls take are assumed.
KNOTTED_LENGTH = Outside(
    "companion.core.plan.planner.compile_plan",
    "BeadFX, Pearls: Knotted vs Strung, 23 July 2021: 80 pearls of 6 mm knotted on silk, 64 cm with the clasp",
    "lengths of beads and of estimated knots, added up",
    "tests/core/plan/test_cut.py::test_how_long_knotted_pearls_came_out",
    ((80, 6.0, 640.0),),
)
KNOTTED_CORD = Outside(
    "companion.core.plan.planner.compile_plan",
    "BeadFX, Pearls: Knotted vs Strung, 23 July 2021: about 3 m of silk for these 80 pearls",
    "take-ups of estimated knots, tails and strand, added up",
    "tests/core/plan/test_cut.py::test_silk_for_knotted_pearls",
    ((80, 6.0, 3000.0),),
)

# Each row: finished length, in; pearls, mm; tails, in; silk, mm, and layers; what each layer uses, in, least and most.
USED = "tests/core/plan/test_cut.py::test_cord_for_pieces_that_others_made"
ADDED_UP = "take-ups of estimated knots, tails and strand, added up; pearls of 6 or 7 mm assumed"
LONG_STRAND = Outside(
    "companion.core.plan.planner.compile_plan",
    "L. Podobnik, Knotted Pearls Not So Easy, 4 April 2013: 60 in knotted, 13 in of 10 ft of silk left",
    ADDED_UP,
    USED,
    ((60, 7, 2.0, 0.5, 1, 107 - 16, 107 + 16),),
)
DOUBLED_SILK = Outside(
    "companion.core.plan.planner.compile_plan",
    "Fire Mountain Gems and Beads, tutorial 6919, The Knotted Necklace and Bracelet: 18 in of doubled silk, cut 9 ft",
    ADDED_UP,
    USED,
    ((18, 6, 6.0, 0.45, 2, 27, 54),),
)
SINGLE_SILK = Outside(
    "companion.core.plan.planner.compile_plan",
    "PDX Knitterati, Knit? Knot!: single silk, start with twice the finished length",
    ADDED_UP,
    USED,
    ((18, 6, 2.0, 0.35, 1, 1.4 * 18, 2.5 * 18),),
)
MORE_THAN_A_FOOT = Outside(
    "companion.core.plan.planner.compile_plan",
    "Dava Bead, Endless Strand tip: finished length and a foot, for a strand without knots; knots take more",
    ADDED_UP,
    USED,
    ((18, 6, 2.0, 0.6, 1, 18 + 12, 18 + 24),),
)
MAGAZINE_NECKLACE = Outside(
    "companion.core.plan.planner.compile_plan",
    "L. Augsburg, Knots and dots, BeadStyle, July 2004, pp. 52-54: 6 ft of 1 mm leather, folded, 20 beads of 10-12 mm",
    ADDED_UP,
    "tests/core/plan/test_cut.py::test_a_magazine_necklace_uses_most_of_its_leather",
    ((20, 11.0, 24.0, 36.0),),
)

HOURS = Outside(
    "companion.core.variants.hours.seconds_to_make",
    "Allison K, The Anatomy of a Mala (akstonesoriginal.wixsite.com): 108 beads, knotted, 2 to 5 hours",
    "so long for each bead, each knot and each strand, shared out from a class of beginners",
    "tests/core/variants/test_hours.py::test_a_mala_takes_as_long_as_its_maker_says",
    ((108, 8.0, 2.0, 5.0),),
    weak="the hours count from the design of the piece, not from the first knot",
)

NAMED = "tests/core/words/trade/test_trade_rules.py::test_names_that_others_give"
BY_ANOTHER = "bounds of another society, the nearest name within an inch"
GLOSSARIA_NAMES = Outside(
    "companion.core.words.trade.trade_rules.length_name",
    "Glossaria, Pearl Necklace Lengths: princess 17 to 19, matinee 20 to 24, opera 28 to 34 in; the middle of each",
    BY_ANOTHER,
    NAMED,
    ((18, "princess"), (22, "matinee"), (31, "opera")),
)
OTHER_NAMES = Outside(
    "companion.core.words.trade.trade_rules.length_name",
    "jewelry.com blog, Pearl Education: How Long is Long? Pearl Strand Lengths: choker 16, matinee 24, rope 46 in",
    BY_ANOTHER,
    NAMED,
    ((16, "choker"), (24, "matinee"), (46, "rope")),
)

ALL = (
    GEM_SOCIETY_COUNTS, MEADOR_COUNTS, SUMMERLAND_COUNT, SPACER_COUNTS, KNOTTED_LENGTH, KNOTTED_CORD, LONG_STRAND,
    DOUBLED_SILK, SINGLE_SILK, MORE_THAN_A_FOOT, MAGAZINE_NECKLACE, HOURS, GLOSSARIA_NAMES, OTHER_NAMES,
)  # fmt: skip
