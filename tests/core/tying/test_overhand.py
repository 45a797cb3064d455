"""The drawn knots between beads, followed along the cord: they must be the knots that they claim to be."""

from __future__ import annotations

import pytest

from companion.core.tying.overhand import bead_body, overhand
from companion.core.tying.shown import BeadLook
from companion.core.values.design import KNOT_KINDS
from tests.core.picture.test_knot_drawings import determinant_of_knot
from tests.core.tying.crossings import along, crossings

TOOLS = ("awl", "needle", "tweezers", "knotting tool")


def met(scene):
    """The crossings of the cord with itself, from its beginning: (crossing, side), as the line drawings have them."""
    own = [one for one in crossings(scene) if one.over[0] == one.under[0] == 0]
    places = [(one.over[1], number, "over") for number, one in enumerate(own)]
    places += [(one.under[1], number, "under") for number, one in enumerate(own)]
    return [(number, side) for _, number, side in sorted(places)]


@pytest.mark.parametrize(("kind", "count"), [("single", 3), ("double", 5), ("triple", 7)])
def test_the_drawing_is_that_knot(kind, count) -> None:
    """An alternating drawing of n crossings and determinant n, n = 3, 5, 7, is the overhand knot, or it with its end
    passed through once or twice more (3_1, 5_1, 7_1). Source: D. Rolfsen, Knots and Links (1976), knot table."""
    found = met(overhand(kind))
    assert [side for _, side in found] == ["under", "over"] * count
    assert determinant_of_knot(found) == count


@pytest.mark.parametrize("kind", KNOT_KINDS)
def test_it_is_the_same_knot_as_in_the_line_drawing(kind) -> None:
    """Every crossing of a twist turns one way; the other way it would be the other hand's knot."""
    signs = {one.sign for one in crossings(overhand(kind)) if one.over[0] == one.under[0] == 0}
    mirrored = {one.sign for one in crossings(overhand(kind).for_the_left_hand()) if one.over[0] == one.under[0] == 0}
    assert len(signs) == 1
    assert mirrored == {-sign for sign in signs}


@pytest.mark.parametrize("tool", TOOLS)
@pytest.mark.parametrize("kind", KNOT_KINDS)
def test_the_tool_goes_in_through_the_loop(kind, tool) -> None:
    """It passes over the loop's far side and under its near one: once each, so it is in the loop."""
    scene = overhand(kind, tool)
    assert len(scene.cords) == (3 if tool == "tweezers" else 2)
    for arm in range(1, len(scene.cords)):
        assert along(scene, arm, 0)[:2] == ["over", "under"]
        x, y, _ = scene.cords[arm].points[-1]
        assert (x, y) == pytest.approx((13.5, 18.5), abs=2)  # beside the bead's hole


def test_before_the_first_bead_there_is_none() -> None:
    scene = overhand("single", bead=None)
    assert not scene.bodies
    assert {name.text for name in scene.names} == {"standing end", "working end", "loop", "awl"}
    assert {name.text for name in overhand("single", strung=True).names} >= {"bead", "to the next beads"}


@pytest.mark.parametrize("ratio", [0.05, 0.3, 1, 2.5, 12])
def test_the_bead_keeps_its_shape_as_far_as_there_is_room(ratio) -> None:
    body = bead_body(BeadLook("oval", ratio, "O"), 12.5, 18)
    assert body.letter == "O"
    assert 3.5 <= body.length <= 12
    assert 4 <= body.across <= 13
    assert body.place[0] + body.length / 2 == 12.5
    assert (body.length < body.across) == (ratio < 1) or ratio == 1
