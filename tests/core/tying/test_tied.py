"""Hitches, a lark's head and a surgeon's knot, followed along their cords."""

from __future__ import annotations

import pytest

from companion.core.tying.tied import half_hitches, larks_head, reef_knot, surgeons_knot
from tests.core.tying.crossings import along, crossings


def test_half_hitches_alternate_and_are_two_alike() -> None:
    """Over the standing cord, back under it, out over itself, twice: a clove hitch round the standing part. Common
    practice, no source."""
    scene = half_hitches()
    assert along(scene, 0, 0) == ["under", "over"] * 6
    own = sorted(
        (one for one in crossings(scene) if one.over[0] == one.under[0]), key=lambda one: max(one.over[1], one.under[1])
    )
    assert [one.sign for one in own[:3]] == [one.sign for one in own[3:]]


def test_the_cord_goes_through_the_ring() -> None:
    assert along(half_hitches(), 0, 1) == ["over", "under"]


def test_a_larks_head_is_alike_on_both_sides_and_lies_over_its_ends() -> None:
    scene = larks_head()
    assert along(scene, 0) == along(scene, 0)[::-1]
    assert along(scene, 0, 0) == ["under", "over", "over", "under"]  # both ends under the fold
    assert along(scene, 0, 1) == ["over", "under", "under", "over"]  # round the ring


def test_a_surgeons_knot_is_a_reef_knot_with_one_half_passed_twice() -> None:
    """Five crossings, then three that turn the other way: with the same turn it would be a granny knot, which slips.
    Source for reef and granny: C. W. Ashley, The Ashley Book of Knots (1944)."""
    scene = surgeons_knot()
    found = sorted(crossings(scene), key=lambda one: one.over[1] if one.over[0] == 0 else one.under[1])
    assert [one.over[0] for one in found[:5]] in ([0, 1, 0, 1, 0], [1, 0, 1, 0, 1])
    assert [one.over[0] for one in found[5:]] in ([0, 1, 0], [1, 0, 1])
    first, second = {one.sign for one in found[:5]}, {one.sign for one in found[5:]}
    assert len(first) == len(second) == 1
    assert first != second


def test_a_reef_knot_is_two_halves_that_turn_opposite_ways() -> None:
    found = sorted(crossings(reef_knot()), key=lambda one: one.over[1] if one.over[0] == 0 else one.under[1])
    assert len(found) == 6
    assert {one.sign for one in found[:3]} == {-one.sign for one in found[3:]}
    for half in (found[:3], found[3:]):
        assert [one.over[0] for one in half] in ([0, 1, 0], [1, 0, 1])


@pytest.mark.parametrize("scene", [surgeons_knot(), reef_knot()])
def test_each_end_comes_out_beside_its_own_cord(scene) -> None:
    one, other = scene.cords
    assert one.points[0][0] < 10
    assert one.points[-1][0] < 10
    assert other.points[0][0] > 50
    assert other.points[-1][0] > 50
