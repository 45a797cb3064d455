"""A strand in pixels: equal beads equal, true to the plan within half a pixel, rows that break at knots."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from companion.core.drawing.strand import (
    LEAST_BEAD_PIXELS,
    drawn_strand,
    fitting_scale,
    folding_scale,
    height_scale,
    largest_scale,
    least_scale,
    odd,
)
from companion.core.values.design import Bead, BeadKind, Knot, Space
from tests.core.hand_plans import hand_plan

LENGTHS_MM = st.lists(st.integers(5, 300).map(lambda tenths: tenths / 10), min_size=1, max_size=5)
SCALE = st.floats(0.1, 4.0)
ENDS = st.sampled_from(["plain tail", "bead tip and clasp", "loop and button", "endless", "French wire and clasp"])


@st.composite
def plans(draw):
    """Beads of any length in any order, with knots and bare cord among them."""
    lengths = draw(LENGTHS_MM)
    beads = tuple(BeadKind(f"b{n}", f"bead {n}", mm, mm, None, "", "") for n, mm in enumerate(lengths))
    element = st.sampled_from([*(Bead(kind.key) for kind in beads), Knot("single"), Knot("single"), Space(7.5)])
    elements = tuple(draw(st.lists(element, min_size=1, max_size=60)))
    end = draw(ENDS)
    return hand_plan(elements, beads=beads, closures=(end, end))


@given(plans(), SCALE)
def test_equal_beads_are_equal_and_as_long_as_the_plan_says(plan, scale):
    strand = drawn_strand(plan, 0, scale)
    widths: dict[object, set[int]] = {}
    for number, element in enumerate(plan.strands[0].elements):
        part = strand.part(number)
        beside = strand.own_knot.width if strand.own_knot and number in strand.own.at_start | strand.own.at_end else 0
        widths.setdefault(element, set()).add(strand.begin(number + 1) - strand.begin(number) - beside)
        least = LEAST_BEAD_PIXELS if part.kind == "bead" else 1
        wanted = part.length_mm * scale
        assert abs(part.width - wanted) <= 0.5 + 1e-9 or (part.width == least and wanted < least)
        assert part.height % 2 == 1
    assert all(len(found) == 1 for found in widths.values())
    own = len(strand.own.at_start | strand.own.at_end) * (strand.own_knot.width if strand.own_knot else 0)
    assert strand.width == sum(strand.part(n).width for n in range(len(strand.order))) + own


@given(plans(), SCALE, st.integers(30, 160))
def test_rows_hold_everything_once_and_break_at_knots(plan, scale, room):
    strand = drawn_strand(plan, 0, scale)
    rows = strand.rows(room)
    assert rows[0][0] == 0
    assert rows[-1][1] == len(strand.order)
    assert all(before[1] == after[0] for before, after in itertools.pairwise(rows))
    for first, end in rows:
        assert end > first
        width = strand.begin(end) - strand.begin(first)
        lead = strand.before.width if strand.before and not first else 0
        assert lead + width <= room or end == first + 1
        knots = [n for n in range(first, end) if strand.part(n).kind == "knot"]
        if end < len(strand.order) and knots:
            assert strand.part(end - 1).kind == "knot"


@given(plans(), SCALE, st.integers(30, 160), st.data())
def test_the_window_holds_the_place_and_begins_after_a_knot(plan, scale, room, data):
    strand = drawn_strand(plan, 0, scale)
    made = data.draw(st.integers(0, len(strand.order) - 1))
    first, end = strand.window(room, made)
    assert 0 <= first <= made
    assert end > made
    lead = strand.before.width if strand.before and not first else 0
    assert lead + strand.begin(end) - strand.begin(first) <= room or end == made + 1
    assert first in (0, made) or strand.part(first - 1).kind == "knot"


@given(plans(), SCALE)
def test_a_place_of_the_strand_lies_within_its_own_part(plan, scale):
    """The ruler carries the rounding: a millimetre of a bead is always over that bead."""
    strand = drawn_strand(plan, 0, scale)
    before_mm = 0.0
    for number, end_mm in enumerate(strand.ends_mm):
        pixel = strand.pixel_at_mm((before_mm + end_mm) / 2)
        assert strand.begin(number) <= pixel <= strand.begin(number + 1)
        before_mm = end_mm


def test_the_scales() -> None:
    plan = hand_plan()
    assert least_scale(plan, 0, 4) == 2  # the daisy is 2 mm
    assert largest_scale(plan, 0, 12) == 2  # the glass is 6 mm
    fits = fitting_scale(plan, 0, 80, 2, 9)
    strand = drawn_strand(plan, 0, fits)
    assert len(strand.rows(80)) <= 2
    assert strand.height <= 9
    larger = drawn_strand(plan, 0, fits * 1.1)
    assert len(larger.rows(80)) > 2 or larger.height > 9
    assert folding_scale(plan, 0, 80, 30, 4) >= fitting_scale(plan, 0, 80, 1, 26)


@pytest.mark.parametrize(("pixels", "nearest"), [(0.2, 1), (1.9, 1), (2.1, 3), (3, 3), (4.2, 5)])
def test_heights_are_odd(pixels: float, nearest: int) -> None:
    assert odd(pixels) == nearest


def test_what_stands_at_the_ends() -> None:
    loop = drawn_strand(hand_plan(closures=("loop and button", "loop and button")), 0, 2)
    assert (loop.before.kind, loop.after.kind, loop.after.form) == ("loop", "finding", "disc")
    coil = drawn_strand(hand_plan(closures=("French wire and clasp", "French wire and clasp")), 0, 2)
    assert coil.before.form == coil.after.form == "coil"
    endless = drawn_strand(hand_plan(closures=("endless", "endless")), 0, 2)
    assert (endless.before, endless.after) == (None, None)


DOT = BeadKind("b0", "bead 0", 0.5, 0.5, None, "", "")


# Bare tails take nearly all of each row: found by chance.
@example(hand_plan((Bead("b0"),) * 5, beads=(DOT,)), 2.0, 34)
@given(plans(), SCALE, st.integers(30, 160))
def test_even_rows_are_as_many_and_none_is_much_longer_than_another(plan, scale, room):
    strand = drawn_strand(plan, 0, scale)
    rows, even = strand.rows(room), strand.even_rows(room)
    assert len(even) == len(rows)
    assert (even[0][0], even[-1][1]) == (rows[0][0], rows[-1][1])
    assert all(before[1] == after[0] for before, after in itertools.pairwise(even))
    longest = [max(strand.begin(end) - strand.begin(first) for first, end in some) for some in (rows, even)]
    assert longest[1] <= longest[0]


def test_the_last_row_is_no_stub() -> None:
    strand = drawn_strand(hand_plan(closures=("endless", "endless")), 0, 1.0)
    first, second = (strand.begin(end) - strand.begin(begin) for begin, end in strand.even_rows(160))
    assert abs(first - second) <= 16
    assert min(strand.begin(end) - strand.begin(begin) for begin, end in strand.rows(160)) < 30


@given(plans(), st.integers(5, 90))
def test_the_largest_scale_for_a_height_fits_it(plan, pixels):
    scale = height_scale(plan, 0, pixels)
    assert drawn_strand(plan, 0, scale).height <= pixels
