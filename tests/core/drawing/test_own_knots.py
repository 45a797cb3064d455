"""French wire's own knots: where its steps tie them, as many as its length reckons with, drawn wherever beads are."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.closures.clasps import COIL_MM
from companion.core.drawing.links import chains_of
from companion.core.drawing.own_knots import OwnKnots, own_knots
from companion.core.drawing.pixels import Palette, paint_row
from companion.core.drawing.strand import drawn_strand
from companion.core.drawing.svg import picture_svg
from companion.core.plan.planner import compile_plan
from companion.core.values.design import (
    Bead,
    BeadKind,
    CordDesign,
    Design,
    End,
    Knot,
    KnotNumbers,
    Strand,
)

PEARL, KNOT = Bead("pearl"), Knot("single")
KNOT_MM = 2.0
CORD = CordDesign("silk", 0.45, 1, "silk", knots=(("single", KnotNumbers(6, KNOT_MM)),))
WIRE = End("French wire and clasp")
PALETTE = Palette((0, 0, 0), (0, 0, 255), (255, 0, 0), {"pearl": (200, 200, 200)})


def plan_of(*layout, start=WIRE, end=WIRE, work="along"):
    beads = (BeadKind("pearl", "Grey pearl", 7, 7, 1),)
    return compile_plan(Design("Trial", CORD, beads, (Strand(layout, start, end, work=work),)))


@pytest.mark.parametrize(
    ("layout", "at_start", "at_end"),
    [
        ((PEARL,) * 8, {0, 1, 2}, {4, 5, 6}),
        ((PEARL, KNOT) * 7 + (PEARL,), set(), {9}),  # one more beside the knot that was tied before the last beads
        ((PEARL, KNOT, *[PEARL] * 6), {2, 3}, {4, 5, 6}),
    ],
)
def test_they_lie_where_the_steps_tie_them(layout, at_start, at_end) -> None:
    strand = plan_of(*layout).strands[0]
    assert own_knots(strand) == OwnKnots(frozenset(at_start), frozenset(at_end))


@pytest.mark.parametrize("layout", [(PEARL,) * 8, (PEARL, KNOT) * 7 + (PEARL,), (PEARL, KNOT, *[PEARL] * 6)])
def test_they_are_as_many_as_the_length_reckons_with(layout) -> None:
    strand = plan_of(*layout).strands[0]
    own = own_knots(strand)
    tied = len(own.at_start) + len(own.at_end)
    assert strand.closure_length_mm == pytest.approx(2 * COIL_MM + tied * KNOT_MM)


def test_other_closures_tie_none() -> None:
    tip = End("bead tip and clasp")
    assert own_knots(plan_of(*[PEARL] * 8, start=tip, end=tip).strands[0]) == OwnKnots()


def test_a_side_has_those_of_its_own_end() -> None:
    for strand in plan_of(*[PEARL] * 9, work="from the middle").strands:
        own = own_knots(strand)
        assert not own.at_start
        assert len(own.at_end) == 3


def test_in_the_strand_they_stand_between_equal_beads() -> None:
    strand = drawn_strand(plan_of(*[PEARL] * 8), 0, 2.0)
    assert [strand.begin(n + 1) - strand.begin(n) for n in range(8)] == [18, 18, 18, 14, 18, 18, 18, 14]
    whole = strand.begin(8)
    cord = {
        made: sum(pixel is not None and pixel[2] < pixel[0] / 2 for row in picture.rows for pixel in row)
        for made in (0, 1, 9)
        for picture in [paint_row(replace(strand, before=None, after=None), (0, 8), made, made, PALETTE)]
    }
    assert whole == 8 * 14 + 6 * 4
    assert cord[0] < cord[1] < cord[9]  # outlines; those of the start made; those of the end too


def test_closed_the_piece_is_as_long_as_before() -> None:
    plan = plan_of(*[PEARL] * 8)
    (chain,) = chains_of(plan)
    assert chain.length_mm == pytest.approx(plan.finished_length_mm)
    assert sum(link.kind == "knot" for link in chain.links) == 6


def test_closures_whose_length_is_written_shorter_than_their_knots_are_drawn_too() -> None:
    short = End("French wire and clasp", length_mm=1.0)
    (chain,) = chains_of(plan_of(*[PEARL] * 8, start=short, end=short))
    assert chain.length_mm == pytest.approx(58)


def test_the_file_has_them() -> None:
    knots = [picture_svg(plan_of(*[PEARL] * 8, start=end, end=end)).count("url(#cord)") for end in (WIRE, End())]
    assert knots[0] == knots[1] + 6
