"""Figures that stand in the program as their source has them: a test keeps them as they are, and proves nothing more.

None of these counts as an outside check. Each: what it is, its source, and the test that would notice a change.
"""

from __future__ import annotations

KEPT: tuple[tuple[str, str, str], ...] = (
    (
        "the inch, 25.4 mm, and with it foot and yard",
        "Addendum to NBS Circular 572, Calibration of Line Standards of Length, 1960; NIST SP 811, appendix B",
        "tests/core/values/measures/test_lengths.py::test_the_units_are_exact",
    ),
    (
        "names of necklace lengths and their bounds",
        "International Gem Society, Bead and Necklace Size Charts",
        "tests/core/words/trade/test_trade_rules.py::test_names_of_necklace_lengths",
    ),
    (
        "three beads for a wrist",
        "Fire Mountain Gems and Beads, Ask the Experts 920b",
        "tests/core/plan/test_fit.py::test_bracelet_target",
    ),
    (
        "a coil of French wire, 3/8 in",
        "Stuller bench article, Use of French Wire When Stringing on Silk; S. Lupo, Adding French Wire and Clasp",
        "tests/core/plan/test_closures.py::test_french_wire_takes_three_eighths_of_an_inch",
    ),
    (
        "the arm of the arm rule, 444 and 481 mm",
        "Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007, public data",
        "tests/core/plan/test_cut.py::test_arm_rule",
    ),
    (
        "the small parts cylinder, 1.25 in across and at most 2.25 deep",
        "16 CFR 1501.4, figure 1",
        "tests/core/words/trade/test_cautions.py::test_the_small_parts_cylinder_decides",
    ),
    (
        "220 mm of cord that can form a noose",
        "EN 71-1:2005+A8:2009, 5.4 (second hand)",
        "tests/core/words/trade/test_cautions.py::test_long_pieces_and_nooses_are_kept_from_children",
    ),
    (
        "almost two hours for a first necklace",
        "52 Things 52 Weeks, Pearl Knotting: A Zen Night of Jewelry Making (2016)",
        "tests/core/variants/test_hours.py::test_a_first_necklace_takes_almost_two_hours",
    ),
)
