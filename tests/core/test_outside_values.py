"""Values from outside the program, each with its source: what others measured, proved, tabulated or require.

Not all are independent of the program: the inch and the foot, five to eight cords in a hole, the society's own names of
lengths, the coil of French wire, the small parts cylinder and the noose stand in it as constants taken from the same
source, so those checks only keep them as they are. Where a source gives no size of bead or cord one is assumed, and the
wide bounds of whole pieces are our own. What is common practice or remembered is not in the table.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf

import pytest

from companion.core.closures.clasps import COIL_MM
from companion.core.cord.cord import estimate
from companion.core.cord.holes import packing_ratio
from companion.core.maths.distributions import normal_quantile, student_quantile
from companion.core.picture.colours import BLACK, WHITE, contrast_ratio
from companion.core.plan.fit import body_to_pass
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadRun, CordDesign, End, Knot, Repeat, Size
from companion.core.values.measures.lengths import read_length_mm
from companion.core.words.trade.cautions import CYLINDER_ACROSS_MM, CYLINDER_DEPTH_MM, NOOSE_CORD_MM
from companion.core.words.trade.trade_rules import length_name
from tests.core.hand_designs import INCH, bead, design
from tests.core.hand_plans import hand_plan

Check = tuple[str, str, Callable[[], float], float, float]  # source, what, ours, theirs from, theirs up to


def within(source: str, what: str, ours: Callable[[], float], theirs: float, by: float) -> Check:
    return source, what, ours, theirs - by, theirs + by


def beads_on_16_in(size_mm: float) -> float:
    layout = [BeadRun("b", None)]
    plan = compile_plan(design(layout, CordDesign("c", 0.35), [bead(size_mm)], Size("length", 16 * INCH)))
    assert plan.fit is not None
    return plan.fit


def named(inches: float, name: str) -> float:
    return float(length_name(hand_plan(finished_mm=inches * INCH, size=Size("neck", 400.0))) == name)


def knotted(finished_in: float, bead_mm: float, cord: CordDesign, tail_in: float = 2.0):
    """The only strand of a piece with a knot at every bead, the figures of its knots estimated."""
    end = End("plain tail", tail_mm=tail_in * INCH)
    layout = [Repeat(None, (Bead("b"), Knot("single")))]
    return compile_plan(design(layout, cord, [bead(bead_mm)], Size("length", finished_in * INCH), end, end)).strands[0]


def used_in(strand) -> float:
    """Cord that goes into one layer, tails included, in inches; without allowance and margin."""
    return (strand.need_mm - strand.working_allowance_mm) / INCH


def magazine_necklace_in() -> float:
    end, leather = End("plain tail", tail_mm=1.5 * INCH), CordDesign("l", 1.0, layers=2, material="leather")
    layout = [Knot("single"), Repeat(20, (Bead("b"), Knot("single")))]
    return used_in(compile_plan(design(layout, leather, [bead(11)], None, end, end)).strands[0])


LINE_GAUGES = "Addendum to NBS Circular 572, Calibration of Line Standards of Length, 1960; NIST Handbook 44"
GUM = "JCGM 100:2008, table G.2"
HANDBOOK = "NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7"
PACKED = "S. Kravitz, Packing cylinders into cylindrical containers, Math. Mag. 40 (1967); Graham 1968, Pirl 1969"
GEM_SOCIETY = "International Gem Society, Bead and Necklace Size Charts"
CHARTS = {  # beads on a 16 in strand; a chart counts clasp or rounding its own way: -7 +1 at 4 mm, 2 above
    GEM_SOCIETY: {4: 100, 6: 66, 8: 50, 10: 40, 12: 33},
    "Fire Mountain Gems and Beads, Beads per Inch chart": {4: 102, 8: 50.8, 10: 40.6, 12: 33.9},
    "K. Meador, beads per strand chart": {4: 100, 6: 67, 8: 50, 10: 41, 12: 34},
}
NAMES = (
    (GEM_SOCIETY, 15, "choker"), (GEM_SOCIETY, 18, "princess"), (GEM_SOCIETY, 22, "matinee"),
    (GEM_SOCIETY, 30, "opera"),
    (GEM_SOCIETY, 40, "rope"), ("Glossaria, Pearl Necklace Lengths (princess 17-19)", 18, "princess"),
    ("Artbeads, Necklace Lengths (princess 18-20)", 19, "princess"),
    ("Jewara, Necklace Sizing (princess 16-18)", 17, "princess"),
)  # fmt: skip
SILK, LINEN = CordDesign("silk", 0.5, material="silk"), CordDesign("linen", 0.8, material="waxed linen")

CHECKS: tuple[Check, ...] = (
    within(LINE_GAUGES, "an inch, mm", lambda: float(read_length_mm("1 in")), 25.4, 0),
    within(LINE_GAUGES, "a foot, mm", lambda: float(read_length_mm("1 ft")), 304.8, 0),
    *(
        within(PACKED, f"{n} cords in a hole", lambda n=n: packing_ratio(n), ratio, 5e-4)
        for n, ratio in ((3, 2.1547), (4, 2.4142), (5, 2.7013), (6, 3.0), (7, 3.0), (8, 3.3048))
    ),
    *(
        within(GUM, f"t of {degrees} degrees, 95 %", lambda d=degrees: student_quantile(0.975, d), t, 0.00501)
        for degrees, t in ((1, 12.71), (2, 4.30), (3, 3.18), (4, 2.78), (9, 2.26), (16, 2.12), (inf, 1.960))
    ),
    *(
        within(HANDBOOK, f"normal quantile of {p}", lambda p=p: normal_quantile(p), z, 5e-4)
        for p, z in ((0.95, 1.645), (0.975, 1.960), (0.99, 2.326), (0.995, 2.576))
    ),
    *(
        within(HANDBOOK, f"t of 4 degrees, {p}", lambda p=p: student_quantile(p, 4), t, 5e-4)
        for p, t in ((0.95, 2.132), (0.99, 3.747))
    ),
    *(
        (chart, f"{mm} mm beads on 16 in", lambda mm=mm: beads_on_16_in(mm), count - 2, count + 2.1)
        for chart, counts in CHARTS.items()
        for mm, count in counts.items()
    ),
    *(within(source, f"{inches} in", lambda i=inches, n=n: named(i, n), 1, 0) for source, inches, n in NAMES),
    # Take-up, by the estimate: no figure of its own from the same source. Each within the estimate's 95 %.
    (
        "J. Barst, 7 Top Cord Knotting Tips and Tricks, Jewelry Tutorial HQ: 4 in of 0.8 mm waxed linen, a knot: 3.75",
        "take-up of a single knot, mm",
        lambda: estimate(LINEN, "single").take_up_mm,
        0.25 * INCH / (1 + 1.96 * 0.25),
        0.25 * INCH / (1 - 1.96 * 0.25),
    ),
    (
        "Mala lengths and bead count, portassa.com: about 2 mm a knot in 1 mm string, 8 mm beads",
        "length of a single knot, mm",
        lambda: estimate(CordDesign("string", 1.0), "single").length_mm,
        2.0 / (1 + 1.96 * 0.2),
        2.0 / (1 - 1.96 * 0.2),
    ),
    within(
        "B. Gilbert, Ideal Knots, Knot Atlas: 3.57 diameters more of rope for each crossing, two a pass",
        "take-up of a pass more, diameters",
        lambda: estimate(SILK, "double").take_up_mm / 0.5 - estimate(SILK, "single").take_up_mm / 0.5,
        2 * 3.57,
        0.15,
    ),
    # Whole pieces.
    (
        "L. Podobnik, Knotted Pearls Not So Easy, 2013: 60 in knotted, 107 in of silk used (pearls not given: 7 mm)",
        "cord used, in",
        lambda: used_in(knotted(60, 7, SILK)),
        107 - 1.96 * knotted(60, 7, SILK).need_sd_mm / INCH,
        107 + 1.96 * knotted(60, 7, SILK).need_sd_mm / INCH,
    ),
    (
        "Fire Mountain Gems and Beads, tutorial 6919: doubled silk, knot at every bead, 18 in: cut 9 ft in all",
        "cord used a layer, in",
        lambda: used_in(knotted(18, 6, CordDesign("silk", 0.45, layers=2, material="silk"), 6.0)),
        27,
        54,
    ),
    (
        "PDX Knitterati, Knit? Knot!: single silk, start with twice the finished length",
        "cord used, share of the finished length",
        lambda: used_in(knotted(18, 6, CordDesign("silk", 0.35, material="silk"))) / 18,
        1.4,
        2.5,
    ),
    (
        "Dava Bead, Endless Strand: finished and a foot, for a strand without knots; one with knots takes more",
        "cord used beyond the length, in",
        lambda: used_in(knotted(18, 6, CordDesign("linen", 0.6, material="waxed linen"))) - 18,
        12,
        24,
    ),
    (
        "Macramé Lovers, Measuring Cord Lengths: solid knotting takes 3 1/2 to 4 times the piece",
        "cord used, share of the finished length",
        lambda: used_in(knotted(18, 6, LINEN)) / 18,
        1,
        4,
    ),
    (
        "L. Augsburg, Knots and dots, BeadStyle, July 2004: 6 ft of 1 mm leather folded, 20 beads of 10-12 mm",
        "cord used a layer, in",
        magazine_necklace_in,
        24,
        36,
    ),
    *(
        within(source, "French wire, mm an end", lambda: COIL_MM, 0.375 * INCH, INCH / 16)
        for source in (
            "Stuller bench article, Use of French Wire When Stringing on Silk",
            "S. Lupo, Adding French Wire and Clasp to Silk Thread, Fire Mountain",
        )
    ),
    (
        "R. Klingenberg, Adjustable Sliding Knot Necklace: at least 24 in to pass the head",
        "what has to pass, mm",
        lambda: body_to_pass(Size("neck", 400.0), 400.0)[1],
        22 * INCH,
        24 * INCH,
    ),
    # Rules.
    within("16 CFR 1501.4, figure 1", "small parts cylinder across, mm", lambda: CYLINDER_ACROSS_MM, 1.25 * INCH, 0),
    within("16 CFR 1501.4, figure 1", "small parts cylinder, deepest, mm", lambda: CYLINDER_DEPTH_MM, 2.25 * INCH, 0),
    within("EN 71-1:2005+A8:2009, 5.4", "longest cord that can make a noose, mm", lambda: NOOSE_CORD_MM, 220, 0),
    within("WCAG 2.2, contrast ratio: from 1 to 21", "black on white", lambda: contrast_ratio(BLACK, WHITE), 21, 1e-9),
    within("WCAG 2.2, contrast ratio: from 1 to 21", "white on white", lambda: contrast_ratio(WHITE, WHITE), 1, 1e-9),
)


@pytest.mark.parametrize("check", CHECKS, ids=[f"{number} {check[1]}" for number, check in enumerate(CHECKS, 1)])
def test_what_others_found_is_what_comes_out(check: Check) -> None:
    source, what, ours, low, high = check
    assert source
    assert low - 1e-9 <= ours() <= high + 1e-9, what


def test_there_are_sixty_in_the_table() -> None:
    assert len(CHECKS) >= 60
