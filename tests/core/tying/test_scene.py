"""A drawing for the other hand is the mirror image: over stays over, and every crossing turns the other way."""

from __future__ import annotations

import pytest

from companion.core.tying.knot_picture import scene_of
from companion.core.tying.scene import UNITS_WIDE
from companion.core.tying.shown import KnotShown
from tests.core.tying.crossings import along, crossings, drawn_once

DRAWN = drawn_once()


@pytest.mark.parametrize("name", DRAWN)
def test_for_the_left_hand_all_turns_the_other_way(name) -> None:
    right, left = scene_of(KnotShown(name)), scene_of(KnotShown(name, left_handed=True))
    assert right is not None
    assert left is not None
    for number in range(len(right.cords)):
        assert along(left, number) == along(right, number)
    assert sorted(one.sign for one in crossings(left)) == sorted(-one.sign for one in crossings(right))
    assert [one.place[0] for one in left.bodies] == [UNITS_WIDE - one.place[0] for one in right.bodies]


@pytest.mark.parametrize("name", DRAWN)
def test_the_ear_is_told_the_sides_of_the_hand(name) -> None:
    right, left = (scene_of(KnotShown(name, left_handed=hand)) for hand in (False, True))
    assert right is not None
    assert left is not None
    swapped = {"left": "right", "right": "left"}
    words = right.for_the_ear().replace(".", " . ").replace(",", " , ").split()
    others = left.for_the_ear().replace(".", " . ").replace(",", " , ").split()
    assert [swapped.get(word, word) for word in words] == others
    assert "{" not in right.for_the_ear()
    assert right.for_the_ear().endswith(".")


@pytest.mark.parametrize("name", DRAWN)
def test_where_two_cords_cross_one_is_well_above_the_other(name) -> None:
    scene = scene_of(KnotShown(name))
    assert scene is not None
    assert all(crossing.apart > 1.5 for crossing in crossings(scene))
