"""A strand that is worked from the middle, drawn as it lies."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.drawing.lying import as_it_lies
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, End, Knot, Size, Strand

LAYOUT = (Knot("single"), Bead("a"), Bead("b"), Knot("double"), Bead("c"), Bead("c"))
KINDS = tuple(BeadKind(key, key, 6.0, 6.0, 1.5) for key in "abc")
START, END = End("plain tail"), End("loop and button", size_mm=12.0)
ALONG = Design(
    "Trial", CordDesign("silk", 0.5), KINDS, (Strand(LAYOUT, START, START),), Size("length", 60.0, tolerance_mm=20.0)
)


def test_along_it_is_the_plan_itself() -> None:
    plan = compile_plan(ALONG)
    assert as_it_lies(plan) is plan


def test_from_the_middle_it_lies_as_one_worked_along() -> None:
    along = compile_plan(ALONG)
    strand = replace(ALONG.strands[0], work="from the middle")
    plan = compile_plan(replace(ALONG, strands=(strand,)))
    assert len(plan.strands) == 2
    (lying,) = as_it_lies(plan).strands
    assert lying.elements == along.strands[0].elements == LAYOUT
    assert lying.strand_length_mm == pytest.approx(along.strands[0].strand_length_mm)
    assert sorted(lying.beads) == sorted(along.strands[0].beads)
    assert (lying.start_closure, lying.end_closure) == ("plain tail", "plain tail")
    assert lying.side is None
