"""What others found of knots, of cords in a hole, and of the cord that a closure takes."""

from __future__ import annotations

from tests.core.outside.outside import Outside

PACKINGS = Outside(
    "companion.core.cord.holes.packing_ratio",
    "Wikipedia, Circle packing in a circle, table of solutions for 1 to 20 circles",
    "the closed form of each packing, from its triangles and polygons",
    "tests/core/cord/test_holes.py::test_cords_in_a_hole_that_were_published",
    ((3, 2.154), (4, 2.414), (5, 2.701), (8, 3.304), (9, 3.613), (11, 3.923), (13, 4.236)),
)

PACKINGS_BEYOND = Outside(
    "companion.core.cord.holes.packing_ratio",
    f"{PACKINGS.source}: the best that are known",
    "a rule of the square root, meant to be a little too large",
    "tests/core/cord/test_holes.py::test_beyond_the_table_a_hole_is_never_called_too_small",
    ((14, 4.328), (16, 4.615), (18, 4.863), (20, 5.122)),
)

# Take-up and length by the estimate, which rests on a minimisation of our own; each within what it calls 95 %.
MEASURED_TAKE_UP = Outside(
    "companion.core.cord.cord.estimate",
    "J. Barst, 7 Top Cord Knotting Tips and Tricks, Jewelry Tutorial HQ: 4 in of 0.8 mm waxed linen, one knot: 3.75",
    "tight knots of ideal rope, by our own minimisation",
    "tests/core/cord/test_cord.py::test_knots_that_others_measured",
    (("waxed linen", 0.8, "take_up_mm", 0.25 * 25.4),),
)
MEASURED_LENGTH = Outside(
    "companion.core.cord.cord.estimate",
    "portassa.com, Mala lengths and bead count: ten 8 mm beads on 1 mm string, each knot adds about 2 mm",
    MEASURED_TAKE_UP.otherwise,
    MEASURED_TAKE_UP.used_by,
    (("other", 1.0, "length_mm", 2.0),),
    weak="one beginner's rough average; the page does not say what the string is made of",
)
ROPELENGTH = Outside(
    "companion.core.cord.cord.estimate",
    "B. Gilbert, Ideal Knots, Knot Atlas: closed ideal knots on the line 5.71 + 3.57 n, two crossings more each pass",
    MEASURED_TAKE_UP.otherwise,
    "tests/core/cord/test_cord.py::test_ropelength_slope_per_extra_pass",
    (("single", "double", 2 * 3.57), ("double", "triple", 2 * 3.57)),
)

DETERMINANTS = Outside(
    "companion.core.picture.knot_drawings.KNOT_DRAWINGS",
    "D. Bar-Natan, The Knot Atlas, Torus Knots: T(5,2), also the double overhand knot, and T(7,2), their determinants",
    "the drawing itself is followed along the cord, over and under",
    "tests/core/picture/test_knot_drawings.py::test_the_drawing_is_that_knot",
    (("double", 5), ("triple", 7)),
)

SLIDING_CORD = Outside(
    "companion.core.closures.tied.separate_cord_mm",
    "eatsip365.com, A step-by-step sliding bracelet knot guide: a 10 in piece of 1 mm cord for the sliding knot",
    "five turns round two tails and their own cord, and both ends",
    "tests/core/closures/test_table.py::test_the_cord_of_a_sliding_knot_is_about_what_others_cut",
    ((1.0, 10 * 25.4),),
    weak="advice to beginners in a round figure; nothing was measured",
)

HAND = Outside(
    "companion.core.plan.fit.body_to_pass",
    "sjaanmaiajewellery.com, Sizing: large, knuckles 22 cm; sylviaraibox.com, bracelet size chart: to 76.3 mm across",
    "the 95th percentile of measured hands",
    "tests/core/plan/test_fit.py::test_what_a_closed_piece_passes_over",
    (("wrist", 165.0, 220.0, 76.3 * 3.14159),),
)
HEAD = Outside(
    "companion.core.plan.fit.body_to_pass",
    "R. Klingenberg, Adjustable Sliding Knot Necklace: at least 24 in to pass the head",
    "the 95th percentile of measured heads",
    HAND.used_by,
    (("neck", 400.0, 22 * 25.4, 24 * 25.4),),
)

EXTRA_FOR_BEADS = Outside(
    "companion.core.plan.fit.target_mm",
    "ringsandstones.com.au, Bracelet sizing: add three times the depth, 24 mm for a bracelet 8 mm deep",
    "the offset of a circle: pi times the beads' thickness",
    "tests/core/plan/test_fit.py::test_beads_make_a_bracelet_longer_than_the_wrist",
    ((8.0, 24.0),),
    weak="the page was not found again when it was looked up",
)

ALL = (
    PACKINGS, PACKINGS_BEYOND, MEASURED_TAKE_UP, MEASURED_LENGTH, ROPELENGTH, DETERMINANTS, SLIDING_CORD, HAND, HEAD,
    EXTRA_FOR_BEADS,
)  # fmt: skip
