"""Cautions: where they apply, once, in plain words, and never a promise."""

from __future__ import annotations

from itertools import product

import pytest
from msgspec.structs import replace

from companion.core.closures.table import CLOSURES
from companion.core.values.design import BeadKind, Size
from companion.core.words.trade.cautions import cautions, fits_small_parts_cylinder
from tests.core.hand_plans import GLASS, hand_plan, skerry_elements

BIG = BeadKind("glass", "Fishing float", 45, 40)
NO_METAL = (GLASS, BeadKind("silver", "Shell daisy", 2, 5))
BIG_TOO = BeadKind("silver", "Float ring", 20, 35)


def codes(**plan) -> list[str]:
    return [caution.code for caution in cautions(hand_plan(**plan))]


def test_a_plain_bracelet_is_told_of_small_parts_sharp_points_and_selling():
    assert codes(material="cotton", beads=NO_METAL) == ["small parts", "sharp", "selling"]


@pytest.mark.parametrize(
    ("name", "metal"),
    [("Silver daisy", True), ("Brass ring bead", True), ("Gold-plated round", True), ("Golden amber", True),
     ("Grey pearl", False), ("Tinted glass", False), ("Silvery moon", False)],
)  # fmt: skip
def test_beads_of_metal_touch_the_skin_as_clasps_do(name, metal):
    """Nickel: REACH annex XVII entry 27. In doubt the caution is shown."""
    assert ("findings" in codes(beads=(GLASS, BeadKind("silver", name, 2, 5)))) is metal


@pytest.mark.parametrize(
    ("length_mm", "diameter_mm", "fits"),
    [(6, 6, True), (31.75, 31.75, True), (31.75, 31.76, False), (57.15, 31.75, True), (66, 10, False), (3, 40, False)],
)
def test_the_small_parts_cylinder_decides(length_mm, diameter_mm, fits):
    """1.25 in across and at most 2.25 in deep. Source: 16 CFR 1501.4, figure 1."""
    assert fits_small_parts_cylinder(BeadKind("x", "x", length_mm, diameter_mm)) is fits


def test_large_beads_alone_are_no_small_parts_but_a_clasp_is():
    assert "small parts" not in codes(beads=(BIG, BIG_TOO))
    assert "small parts" in codes(beads=(BIG, BIG_TOO), closures=("knotted to the clasp", "plain tail"))


def test_a_small_bead_that_the_plan_does_not_use_is_not_warned_of():
    assert "small parts" not in codes(beads=(BIG, BIG_TOO, BeadKind("spare", "Spare", 4, 4)))


@pytest.mark.parametrize(
    ("plan", "applies"),
    [
        ({"finished_mm": 202.0}, False),
        ({"finished_mm": 220.0}, False),
        ({"finished_mm": 220.1}, True),
        ({"size": Size("neck", 180)}, True),
        ({"size": Size("wrist", 160)}, False),
        ({"closures": ("sliding knot", "sliding knot")}, True),
        ({"closures": ("endless", "endless")}, True),
    ],
)
def test_long_pieces_and_nooses_are_kept_from_children(plan, applies):
    """220 mm of cord that can form a noose. Source: EN 71-1:2005+A8:2009, 5.4 (second hand)."""
    assert ("noose" in codes(**plan)) is applies


def test_a_breakaway_closure_is_no_guarantee():
    """Source: L. Soudek, R. McLaughlin, Paediatrics & Child Health 23 (2018) 106–110: 7 of 15 stayed shut."""
    (noose,) = (caution.text for caution in cautions(hand_plan(finished_mm=450)) if caution.code == "noose")
    assert "breakaway closure is no guarantee" in noose


@pytest.mark.parametrize(
    ("needle", "material", "named"),
    [(False, "leather", {"awl"}), (True, "silk", {"needle"}), (False, "silk", {"awl", "needle"})],
)
def test_the_sharp_tools_are_those_laid_ready(needle, material, named):
    """Doubled silk is threaded by its fold, with a needle, whatever its knots are worked with."""
    plan = hand_plan(needle=needle, material=material)
    (sharp,) = (caution.text for caution in cautions(plan) if caution.code == "sharp")
    assert {tool for tool in ("awl", "needle", "tweezers") if tool in sharp.lower()} == named


def test_tweezers_are_named_where_the_knots_are_worked_with_them():
    plan = hand_plan(material="leather")
    worked = replace(plan, cord=replace(plan.cord, worked_with="tweezers"))
    (sharp,) = (caution.text for caution in cautions(worked) if caution.code == "sharp")
    assert sharp.startswith("Tweezers and snips are sharp")
    assert "awl" not in sharp.lower()


@pytest.mark.parametrize("closure", CLOSURES)
def test_a_closure_brings_its_own_cautions(closure):
    told = codes(
        closures=(closure, closure), material="cotton", beads=NO_METAL
    )  # silk's ends are stiffened with glue in any case
    assert ("glue" in told) == any("glue" in tool for tool in CLOSURES[closure].tools)
    assert ("findings" in told) == ("clasp" in closure)


@pytest.mark.parametrize(
    ("material", "melts"),
    [
        ("silk", False),
        ("cotton", False),
        ("leather", False),
        ("nylon", True),
        ("polyester", True),
        ("linen", False),
        ("waxed linen", False),  # plant fibre chars, waxed or not
        ("waxed cotton", False),
    ],
)
def test_only_fibre_that_melts_is_told_of_flame(material, melts):
    assert ("flame" in codes(material=material)) is melts


def test_only_long_sittings_are_told_of_eyes_and_wrists():
    assert "sitting" not in codes(steps=60)
    assert "sitting" in codes(steps=61)
    (text,) = (
        c.text for c in cautions(hand_plan(skerry_elements(), skerry_elements(), steps=50)) if c.code == "sitting"
    )
    assert text.startswith("100 steps")


@pytest.mark.parametrize(
    ("closure", "material", "needle", "finished_mm", "steps"),
    list(product(CLOSURES, ("silk", "nylon"), (False, True), (180.0, 900.0), (20, 300))),
)
def test_each_is_said_once_and_none_calls_a_piece_safe(closure, material, needle, finished_mm, steps):
    told = cautions(
        hand_plan(
            closures=(closure, closure), material=material, needle=needle, finished_mm=finished_mm, steps=steps,
            beads=(GLASS, BIG_TOO),
        )
    )  # fmt: skip
    assert len({caution.code for caution in told}) == len({caution.text for caution in told}) == len(told)
    for caution in told:
        assert "safe" not in caution.text.lower()
        assert "please" not in caution.text.lower()
        assert "!" not in caution.text
        assert caution.text.endswith(".")
    assert told[-1].code == "selling"
    assert "accredited laboratory" in told[-1].text
    assert "local rules" in told[-1].text
