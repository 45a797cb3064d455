"""Knots drawn in lines: what passes over is drawn after what passes under."""

from __future__ import annotations

from itertools import pairwise
from math import dist
from xml.etree import ElementTree

import pytest

from companion.core.sheet.knot_svg import APART, WIDE_MM, _runs, knot_svg
from companion.core.tying.knot_picture import scene_of
from companion.core.tying.scene import UNITS_WIDE
from companion.core.tying.shown import BeadLook, KnotShown
from tests.core.tying.crossings import STEP, crossings, drawn_once


@pytest.mark.parametrize("name", drawn_once())
def test_what_passes_over_is_drawn_later(name: str) -> None:
    scene = scene_of(KnotShown(name))
    assert scene
    runs = [(number, run) for number, cord in enumerate(scene.cords) for run in _runs(cord)]
    runs.sort(key=lambda one: one[1].band)

    def drawn_at(cord: int, along: float) -> int:
        """The place in the order of drawing of the part that lies nearest to there."""
        x, y, z = tuple(scene.cords[cord].way(STEP))[round(along)]

        def away(place: int) -> float:
            number, run = runs[place]
            if number != cord:
                return float("inf")
            return min(dist((x, y, z), point) for point in run.points[1:])  # the first is the part's before

        return min(range(len(runs)), key=away)

    for crossing in crossings(scene):
        if crossing.apart > APART:
            assert drawn_at(*crossing.over) > drawn_at(*crossing.under), (name, crossing)


@pytest.mark.parametrize("name", drawn_once())
@pytest.mark.parametrize("layers", [1, 2])
def test_it_is_a_picture_of_its_own_with_the_names_of_the_parts(name: str, layers: int) -> None:
    shown = KnotShown(name, layers=layers, colour=(20, 90, 160))
    text = knot_svg(shown)
    svg = ElementTree.fromstring(text)
    assert svg.get("width") == f"{WIDE_MM:g}mm"
    scene = scene_of(shown)
    assert scene
    title = svg.find("{*}title")
    assert title is not None
    assert title.text == scene.for_the_ear()
    words = {one.text for one in svg.findall("{*}text")}
    assert words & {name.text for name in scene.names}
    for line in svg.findall("{*}polyline"):
        places = [tuple(map(float, place.split(","))) for place in line.get("points", "").split()]
        assert all(dist(one, other) < UNITS_WIDE / 4 for one, other in pairwise(places))


def test_no_drawing_no_picture() -> None:
    assert knot_svg(KnotShown("stretching silk")) == ""


def test_a_letter_is_only_a_letter() -> None:
    text = knot_svg(KnotShown("single knot", bead=BeadLook(letter="<")))
    assert "&lt;" in text
    ElementTree.fromstring(text)
