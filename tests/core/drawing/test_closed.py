"""A piece drawn closed: every link as long as the plan says whichever way round it lies, and the ends meet."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from math import cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.drawing.closed import EDGE, LARGEST_SCALE, Closed, Laid, closed_piece, curve_in
from companion.core.drawing.links import Chain, Link
from tests.examples import few_examples

HALF_A_PIXEL = 0.5
BOXES = st.tuples(st.integers(40, 220), st.integers(24, 110))
LENGTHS_MM = st.integers(10, 160).map(lambda tenths: tenths / 10)


def chain_of(links: Sequence[Link], *clasp: Link) -> Chain:
    """A chain, its links in the order of the work."""
    beads = accumulate((link.kind == "bead" for link in links), initial=0)
    return Chain(tuple(links), tuple(beads)[: len(links)], clasp, 0.6)


@st.composite
def chains(draw) -> tuple[Chain, ...]:
    """One to three strands of beads of any length, with knots and bare cord among them; as long as a bracelet or
    more."""
    kinds = [
        Link("bead", "round", mm, mm, f"b{number}")
        for number, mm in enumerate(draw(st.lists(LENGTHS_MM, min_size=1, max_size=4)))
    ]
    kinds += [Link("knot", "round", 2.0, 1.5), Link("bare", "tube", 5.0, 0.6)]

    def strand(times: int) -> Chain:
        links = draw(st.lists(st.sampled_from(kinds), min_size=2, max_size=12))
        repeats = int(160 // sum(link.length_mm for link in links)) + times
        return chain_of(links * repeats, Link("finding", "ring", 8.0, 5.0))

    return tuple(strand(times) for times in range(1, draw(st.integers(1, 3)) + 1))


def ends(laid: Laid, scale: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where a link begins and where it ends, from its own length alone."""
    half = laid.link.length_mm * scale / 2
    dx, dy = half * cos(laid.turn), half * sin(laid.turn)
    return (laid.x - dx, laid.y - dy), (laid.x + dx, laid.y + dy)


def apart(one: tuple[float, float], other: tuple[float, float]) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


@few_examples
@given(chains(), BOXES)
def test_each_link_ends_where_the_next_begins_and_the_last_where_the_first_did(found, box) -> None:
    """The ends meet wherever the way round is as wide as two of its longest links; where it is not, the clasp lies over
    what they are apart."""
    closed = closed_piece(found, *box)
    for strand in closed.strands:
        on_it = [laid for laid in strand if laid.link.form != "ring"]
        links = [ends(laid, closed.pixels_per_mm) for laid in on_it]
        for (_, end), (begin, _) in pairwise(links):
            assert apart(end, begin) < HALF_A_PIXEL
        longest = max(laid.link.length_mm for laid in on_it) * closed.pixels_per_mm
        across, down = ([getattr(laid, side) for laid in on_it] for side in "xy")
        narrowest = min(max(across) - min(across), max(down) - min(down))
        if narrowest >= 2 * longest:
            assert apart(links[-1][1], links[0][0]) < HALF_A_PIXEL


@few_examples
@given(chains(), BOXES)
def test_it_is_all_there_in_the_box_as_large_as_can_be(found, box) -> None:
    closed = closed_piece(found, *box)
    assert closed.pixels_per_mm <= LARGEST_SCALE
    assert (closed.width, closed.height) <= box
    by_length = sorted(found, key=lambda chain: -chain.length_mm)
    assert [tuple(laid.link for laid in strand) for strand in closed.strands] == [
        (*chain.links, *chain.clasp) for chain in by_length
    ]
    for strand in closed.strands:
        for laid in strand:
            for x, y in ends(laid, closed.pixels_per_mm):
                assert -HALF_A_PIXEL <= x <= closed.width + HALF_A_PIXEL
                assert -HALF_A_PIXEL <= y <= closed.height + HALF_A_PIXEL


def ring(beads: int, width: int, height: int) -> Closed:
    return closed_piece([chain_of([Link("bead", "round", 6.0, 6.0, "b")] * beads)], width, height)


@pytest.mark.parametrize("beads", [12, 24, 59])
def test_in_a_square_it_is_a_polygon_with_its_beads_for_sides(beads) -> None:
    """Second way: the circle round a regular polygon of n sides s has the radius s / (2 sin(pi / n))."""
    closed = ring(beads, 80, 80)
    radius = 6.0 * closed.pixels_per_mm / (2 * sin(pi / beads))
    for laid in closed.strands[0]:
        middle = hypot(laid.x - closed.width / 2, laid.y - closed.height / 2)
        assert middle == pytest.approx(radius * cos(pi / beads), abs=0.1)
    assert 2 * radius + 6 * closed.pixels_per_mm == pytest.approx(closed.width - 2 * EDGE, abs=0.5)


def test_a_longer_box_has_straighter_sides_and_a_larger_scale() -> None:
    assert ring(24, 120, 40).pixels_per_mm > ring(24, 40, 40).pixels_per_mm
    long = curve_in(120, 40, 2)
    upper = [x for x, y in long.points if y < 4]
    assert max(upper) - min(upper) > 60
    assert long.points[0] == pytest.approx((60, 2))


def test_the_closure_is_at_the_top_and_shorter_strands_hang_within_from_there() -> None:
    bead, clasp = Link("bead", "round", 6.0, 6.0, "b"), Link("finding", "ring", 8.0, 5.0)
    closed = closed_piece([chain_of([bead] * count, clasp) for count in (40, 50, 45)], 100, 80)
    assert [len(strand) for strand in closed.strands] == [51, 46, 41]
    tops = {(round(strand[-1].x), round(strand[-1].y, 3)) for strand in closed.strands}
    assert len(tops) == 1
    assert min(strand[-1].y for strand in closed.strands) < 8
    lowest = [max(laid.y for laid in strand) for strand in closed.strands]
    assert lowest == sorted(lowest, reverse=True)
    assert len({round(low) for low in lowest}) == 3


def test_a_piece_of_next_to_nothing_is_drawn_too() -> None:
    closed = closed_piece([chain_of([Link("bead", "round", 0.5, 0.5, "b")] * 2)], 90, 30)
    assert len(closed.strands[0]) == 2
