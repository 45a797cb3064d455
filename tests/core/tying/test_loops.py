"""Loops and the sliding knot, followed along their cords."""

from __future__ import annotations

import pytest

from companion.core.tying.loops import loop_closure, sliding_knot
from tests.core.tying.crossings import along


@pytest.mark.parametrize("over", ["button", "bead"])
def test_the_folded_cord_is_tied_in_a_single_knot(over) -> None:
    """Two cords that lie together: an overhand's three crossings are each of four, two and two in turn."""
    there_and_back = along(loop_closure(over), 0, 0)
    half = len(there_and_back) // 2
    assert there_and_back[:half] == ["under", "under", "over", "over"] * 3
    assert there_and_back[half:] == there_and_back[:half][::-1]


@pytest.mark.parametrize("over", ["button", "bead"])
def test_what_closes_it_lies_in_the_loop(over) -> None:
    scene = loop_closure(over)
    (closing,) = scene.bodies
    x, y, _ = closing.place
    loop = [point for point in scene.cords[0].way(0.5) if point[0] > 43]
    assert min(point[1] for point in loop) < y - closing.across / 2
    assert max(point[1] for point in loop) > y + closing.across / 2
    assert max(point[0] for point in loop) > x + closing.length / 2


def test_the_wraps_go_round_both_tails_five_times_and_their_own_ends() -> None:
    scene = sliding_knot()
    for tail in (0, 1):
        met = along(scene, tail, 2)
        assert met.count("under") == 5  # the wraps in front
        assert met.count("over") == 6  # the wraps behind, and their end on its way back
        assert "".join(side[0] for side in met) in (
            "uo" * 5 + "o",
            "o" + "uo" * 5,
            "oo" + "uo" * 4 + "u",
            "ou" * 5 + "o",
        )
    own = along(scene, 2, 2)
    assert own.count("over") == own.count("under") >= 16  # both its ends lie under the wraps in front
    assert not along(scene, 0, 1)  # the tails only lie beside one another


def test_the_tails_point_opposite_ways() -> None:
    one, two, _ = sliding_knot().cords
    assert one.points[0][0] == two.points[-1][0] == 0
    assert one.points[-1][0] == two.points[0][0] == 60
