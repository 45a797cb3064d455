"""Which steps to count, and what a count means."""

from __future__ import annotations

import pytest

from companion.core.forecast.counting import Stretch, stretch, stretch_to_count
from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Jumped, Measured, Recounted
from companion.core.journal.fold import after, fold
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from companion.core.values.errors import NotPossible

GLASS = BeadKind("g", "Glass", 6, 6, 1.0)
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


def plan_of(*counts):
    strands = tuple(
        Strand((Repeat(count, (Bead("g"), Knot("single"))),), name=f"strand {number}")
        for number, count in enumerate(counts)
    )
    return compile_plan(Design("Dun light", CORD, (GLASS,), strands, Size("length", 8.0 * max(counts), 0, 3.0)))


def quantity(plan, done, *readings, counted=()):
    taken = tuple(Measured("strand", step, mm, "") for step, mm in readings)
    piece = Piece(plan.total_steps, done, readings=taken, counted=counted)
    return piece, Forecaster(plan, faults=True).outlook(piece)


def planned(plan, step):
    return plan.strands[0].steps[step - 1].strand_mm


def test_the_suspected_stretch_is_counted_first() -> None:
    plan = plan_of(30)
    piece, outlook = quantity(plan, 20, (6, planned(plan, 6)), (12, planned(plan, 12) - 6), (18, planned(plan, 18) - 6))
    assert outlook.verdict == "recount"
    assert stretch_to_count(plan, piece, outlook) == Stretch(6, 12, 6)


def test_else_what_was_made_since_the_last_right_count() -> None:
    plan = plan_of(30)
    assert stretch_to_count(plan, *quantity(plan, 20)) == stretch(plan, 0, 20)
    assert stretch_to_count(plan, *quantity(plan, 20, counted=(Recounted(15),))) == Stretch(15, 20, 5)
    assert stretch_to_count(plan, *quantity(plan, 20, counted=(Recounted(20),))).since == 0


def test_the_beads_of_several_strands_are_summed() -> None:
    plan = plan_of(4, 5)
    inside = stretch(plan, 1, plan.piece_step(1, 3))
    assert inside.beads == sum(len(s.beads) for s in (*plan.strands[0].steps[1:], *plan.strands[1].steps[:3]))


def test_counts_fold() -> None:
    """A later count of the same steps stands alone; one of other steps stands beside it; going back before it ends it;
    of a right one the part that is still made stands."""
    piece = Piece(30, 20)
    first = after(piece, Recounted(12, 6, -1))
    assert after(first, Recounted(12, 6)).counted == (Recounted(12, 6),)
    assert after(first, Recounted(18, 0)).counted == (Recounted(18, 0),)
    assert after(first, Recounted(18, 12)).counted == (Recounted(12, 6, -1), Recounted(18, 12))
    made = fold([*first.counted, Recounted(18, 12)], Piece(30, 20))
    assert after(made, Jumped(15)).counted == (Recounted(12, 6, -1), Recounted(15, 12))
    assert after(made, Jumped(10)).counted == ()
    for wrong in (Recounted(21), Recounted(5, 6), Recounted(5, -1)):
        with pytest.raises(NotPossible):
            after(piece, wrong)
