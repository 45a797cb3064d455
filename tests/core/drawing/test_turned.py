"""Turned bodies: as large as they should be whichever way round, in their place, lit from the upper left."""

from __future__ import annotations

from math import cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.drawing.turned import PARTS, TURNS, painted_body

PLACES = st.tuples(st.floats(20, 60), st.floats(20, 60))
ANGLES = st.floats(-pi, pi)
SIDES = st.floats(2, 20)
SHARES = {"round": pi / 4, "tube": 1.0}  # of the box: an ellipse, and all of it


def covered(form, length, across, place, angle) -> list[tuple[float, float, float]]:
    """The middle of each pixel, from the picture's corner, and how much of it is covered."""
    body = painted_body(form, length, across, place, angle)
    left, top = int(place[0]) + body.left, int(place[1]) + body.top
    return [
        (left + x + 0.5, top + y + 0.5, shade.cover) for y, row in enumerate(body.rows) for x, shade in enumerate(row)
    ]


@given(st.sampled_from(sorted(SHARES)), SIDES, SIDES, PLACES, ANGLES)
def test_a_body_covers_as_much_whichever_way_round_it_lies(form, length, across, place, angle) -> None:
    """So beads of a kind look equally large all round a piece: as if each side were off by half a pixel at most.
    Second way: the area of an ellipse, and of a box."""
    area = sum(cover for _, _, cover in covered(form, length, across, place, angle))
    assert area == pytest.approx(SHARES[form] * length * across, abs=0.5 * (length + across + 0.5))


@given(st.sampled_from(["round", "tube", "disc"]), SIDES, SIDES, PLACES, ANGLES)
def test_a_body_is_as_long_as_it_should_be_and_where_it_should_be(form, length, across, place, angle) -> None:
    """Along its hole and across it the farthest covered pixel lies at the body's own end, to half a pixel and half a
    pixel's diagonal; its middle lies in its place, to half a pixel."""
    pixels = [(x - place[0], y - place[1], cover) for x, y, cover in covered(form, length, across, place, angle)]
    slack = 0.5 + hypot(0.5, 0.5) + pi / TURNS * max(length, across)
    for size, (right, down) in ((length, (cos(angle), sin(angle))), (across, (-sin(angle), cos(angle)))):
        reach = max(x * right + y * down for x, y, cover in pixels if cover > 0)
        assert abs(reach - size / 2) <= slack
    whole = sum(cover for _, _, cover in pixels)
    for middle in (sum(x * c for x, _, c in pixels) / whole, sum(y * c for _, y, c in pixels) / whole):
        assert abs(middle) <= 0.5 / PARTS + 0.25


@pytest.mark.parametrize(
    ("form", "angle"),
    [*((form, angle) for form in ("round", "oval") for angle in (0, pi / 3, pi / 2, pi, -pi / 4)), ("tube", pi)],
)
def test_light_comes_from_above_whichever_way_round(form, angle) -> None:
    rows = painted_body(form, 15.0, 13.0, (30.5, 30.5), angle).rows
    inside = [[shade.light for shade in row if shade.cover == 1] for row in rows]
    upper, lower = (sum(map(sum, part)) / sum(map(len, part)) for part in (inside[:7], inside[-7:]))
    assert upper > lower * 1.2


def test_round_beads_of_a_kind_are_one_stamp() -> None:
    assert painted_body("round", 6.0, 6.0, (10.5, 10.5), 0.3) is painted_body("round", 6.0, 6.0, (31.5, 4.5), 2.9)
