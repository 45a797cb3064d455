"""What is kept from reading to reading says the same as everything worked out anew."""

from __future__ import annotations

from functools import cache

from hypothesis import given
from hypothesis import strategies as st

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from tests.examples import few_examples

BEADS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 9, 5, 1.0))
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)), ("double", KnotNumbers(10, 3))))
READINGS = st.lists(
    st.tuples(st.integers(1, 40), st.sampled_from(["strand", "free"]), st.floats(-30, 30), st.integers(0, 3)),
    min_size=1,
    max_size=9,
)


@cache
def plan():
    layout = (Repeat(20, (Bead("g"), Knot("single"), Bead("s"), Knot("double"))),)
    return compile_plan(Design("Two ways", CORD, BEADS, (Strand(layout),), Size("length", 420.0, 0, 3.0)))


@few_examples
@given(READINGS, st.integers(0, 40))
def test_kept_and_anew_agree(drawn, counted_to) -> None:
    """Readings come, in any order of places, and some are taken back and others taken instead; beads are counted."""
    kept, taken = Forecaster(plan(), faults=True), []
    for number, (step, kind, off_mm, back) in enumerate(drawn):
        del taken[len(taken) - min(back, len(taken)) :]
        there = plan().strands[0].steps[step - 1]
        length_mm = (there.strand_mm if kind == "strand" else there.free_cord_mm) + off_mm
        taken.append(Measured(kind, step, length_mm, "", 1.0))
        counted = (Recounted(counted_to, counted_to // 3, number % 3 - 1),) if number % 2 else ()
        piece = Piece(plan().total_steps, 40, readings=tuple(taken), counted=counted)
        mine, other = kept.outlook(piece), Forecaster(plan(), faults=True).outlook(piece)
        assert mine == other
