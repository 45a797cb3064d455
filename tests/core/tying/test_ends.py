"""Ends with a clasp: what goes through what."""

from __future__ import annotations

import pytest

from companion.core.tying.ends import bead_tip, cord_end, crimp, french_wire, round_the_strand
from companion.core.tying.knot_cover import knot_cover
from companion.core.tying.knot_picture import in_words
from companion.core.tying.shown import KnotShown
from tests.core.tying.crossings import along, crossings


def test_the_knot_of_a_bead_tip_is_a_double_one() -> None:
    """Five crossings in turn, as the step ties it; the cup hides where the cord comes out of it."""
    assert along(bead_tip(), 0, 0) == ["under", "over"] * 5
    assert along(bead_tip(), 0, 1) == ["under"]


def test_the_tool_lies_in_the_loop_of_it() -> None:
    assert along(bead_tip(), 3, 0) == ["over", "under"]


@pytest.mark.parametrize(("scene", "through", "ring"), [(french_wire(), 1, 2), (crimp(), 0, 1), (cord_end(), 1, 2)])
def test_the_clasp_hangs_in_what_holds_it(scene, through, ring) -> None:
    """Once over and once under: the two are linked."""
    assert sorted(along(scene, ring, through)) == ["over", "under"]


def test_the_knot_beside_the_last_bead_goes_round_the_strand_and_out_over_itself() -> None:
    own = [one for one in crossings(french_wire()) if one.over[0] == one.under[0] == 0]
    assert along(french_wire(), 0, 0) == ["under", "over"] * 3
    assert len(own) == 3


def test_a_tail_is_knotted_round_the_strand_as_at_french_wire() -> None:
    assert along(round_the_strand(), 1, 0) == ["over", "under"]
    assert along(round_the_strand(), 1, 1) == ["under", "over"]


def test_beads_stand_where_the_cord_runs() -> None:
    for scene in (french_wire(), crimp(), cord_end()):
        beads = [body for body in scene.bodies if body.stuff == "bead"]
        assert beads
        for bead in beads:
            near = [y for x, y, _ in scene.cords[0].way(0.5) if abs(x - bead.place[0]) < bead.length / 2]
            assert any(abs(y - bead.place[1]) < bead.across / 2 for y in near)


def test_the_knot_in_a_cover_is_a_double_one() -> None:
    """Five crossings in turn; each cup hides where the cord comes out of the hinge."""
    assert along(knot_cover(), 0, 0) == ["under", "over"] * 5
    assert {bead.stuff for bead in knot_cover().bodies} == {"bead"}
    assert in_words(KnotShown("knot cover", left_handed=True)).startswith("The cord comes from the bead at the right")
