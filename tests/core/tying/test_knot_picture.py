"""Drawings for the room that there is: every part is named, beside what it names, and nothing covers the drawing."""

from __future__ import annotations

from itertools import product

import pytest

from companion.core.closures.table import CLOSURES
from companion.core.drawing.pixels import Palette
from companion.core.tying.knot_picture import LEAST_SCALE, in_words, knot_picture, lines_at, scale_for, scene_of
from companion.core.tying.shown import BeadLook, KnotShown
from companion.core.values.design import KNOT_KINDS
from companion.core.words.trade.how_to import names
from companion.core.words.trade.techniques import KNOTS_BY_HAND
from tests.core.tying.crossings import drawn_once

PALETTE = Palette((20, 24, 27), (156, 192, 220), (147, 149, 146), {"": (20, 130, 130)})
DRAWN = drawn_once()
SCALES = (LEAST_SCALE, 2 / 3, 1.0)


def test_every_knot_and_every_closure_but_a_plain_tail_is_drawn() -> None:
    knots = {*(f"{kind} knot" for kind in KNOT_KINDS), *KNOTS_BY_HAND}
    assert {*knots, *CLOSURES} - {name for name in names() if scene_of(KnotShown(name))} == {"plain tail"}
    assert in_words(KnotShown("plain tail")) == ""
    assert knot_picture(KnotShown("plain tail"), 1.0, PALETTE) is None


@pytest.mark.parametrize(("name", "scale"), list(product(DRAWN, SCALES)))
def test_every_part_is_named_where_nothing_is_drawn(name, scale) -> None:
    for layers, left_handed in ((1, False), (2, True)):
        shown = KnotShown(name, layers=layers, left_handed=left_handed)
        picture, scene = knot_picture(shown, scale, PALETTE), scene_of(shown)
        assert picture is not None
        assert scene is not None
        assert sorted(one.text for one in picture.names) == sorted(one.text for one in scene.names)
        for one in picture.names:
            covered = [row[one.column : one.column + len(one.text)] for row in picture.pixels.rows[2 * one.line :][:2]]
            assert all(len(part) == len(one.text) for part in covered)
            assert not any(pixel for part in covered for pixel in part)


@pytest.mark.parametrize("tool", ["awl", "needle", "tweezers", "knotting tool"])
def test_the_tool_is_named_by_its_name(tool) -> None:
    for name in ("single knot", "bead tip and clasp"):
        picture = knot_picture(KnotShown(name, tool), 1.0, PALETTE)
        assert picture is not None
        assert ("tool" if tool == "knotting tool" else tool) in {one.text for one in picture.names}


@pytest.mark.parametrize(("columns", "lines"), [(40, 10), (76, 11), (116, 18), (36, 40), (200, 60)])
def test_a_drawing_has_room_where_it_is_drawn(columns, lines) -> None:
    scale = scale_for(columns, lines)
    picture = knot_picture(KnotShown("single knot"), scale, PALETTE)
    assert picture is not None
    assert picture.pixels.width <= columns
    assert len(picture.pixels.rows) // 2 == lines_at(scale) <= lines


@pytest.mark.parametrize(("columns", "lines"), [(30, 40), (80, 8), (0, 0), (40, -3)])
def test_where_it_could_not_be_followed_nothing_is_drawn(columns, lines) -> None:
    assert scale_for(columns, lines) == 0


def test_the_piece_has_its_own_bead() -> None:
    """Its form and its letter; a disc is narrow, a tube is long."""
    wide = {}
    for form, ratio in (("disc", 0.3), ("tube", 2.5)):
        shown = KnotShown("single knot", bead=BeadLook(form, ratio, "S"))
        scene, picture = scene_of(shown), knot_picture(shown, 1.0, PALETTE)
        assert scene is not None
        assert picture is not None
        assert [letter.text for letter in picture.pixels.letters] == ["S"]
        wide[form] = scene.bodies[0].length
    assert wide["disc"] < wide["tube"]
