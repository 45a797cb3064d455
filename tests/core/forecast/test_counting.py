"""Which steps to count, and what a count means."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.counting import (
    Stretch,
    stretch,
    stretch_to_count,
    suspected_miscount,
    suspected_stretch,
)
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Fault
from companion.core.journal.events import Jumped, Measured, Recounted
from companion.core.journal.fold import after, fold
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from companion.core.values.errors import NotPossible
from companion.core.values.expected import Expected

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


def test_a_reading_that_is_too_much_to_be_the_ruler_asks_for_a_count_though_the_length_is_right() -> None:
    """A tolerance of 12 mm hides a missing bead of 6: the reading itself does not. Counted right, it asks no more."""
    plan = replace(plan_of(18), tolerance_mm=12.0)
    readings = (4, planned(plan, 4)), (8, planned(plan, 8) - 4.6)
    piece, outlook = quantity(plan, 9, *readings)
    assert outlook.verdict == "on plan"
    assert not outlook.newest.is_usual
    suspect = suspected_miscount(plan, outlook)
    assert (suspect.kind, suspect.from_step, suspect.to_step) == ("bead missed", 5, 8)
    assert (
        stretch_to_count(plan, piece, outlook) == suspected_stretch(plan, piece, outlook, suspect) == Stretch(4, 8, 4)
    )
    assert suspected_miscount(plan, quantity(plan, 9, *readings, counted=(Recounted(8, 4),))[1]) is None


def test_what_an_earlier_reading_made_suspect_is_counted_with_it() -> None:
    """Two readings, each too short to be the ruler: one count over both stretches, unless the first is counted."""
    plan = replace(plan_of(18), tolerance_mm=12.0)
    readings = (4, planned(plan, 4)), (8, planned(plan, 8) - 4.6), (12, planned(plan, 12) - 9.0)
    piece, outlook = quantity(plan, 12, *readings)
    later = Fault("bead missed", 0.2, 0, 9, 12)
    outlook = replace(outlook, verdict="on plan", faults=(later,))
    assert stretch_to_count(plan, piece, outlook) == Stretch(4, 12, 8)
    counted = replace(piece, counted=(Recounted(8, 4),))
    assert stretch_to_count(plan, counted, outlook) == Stretch(8, 12, 4)
    assert stretch_to_count(plan, piece, replace(outlook, verdict="recount")) == Stretch(8, 12, 4)


def test_a_bead_is_suspected_only_where_it_would_explain_what_is_off() -> None:
    plan = plan_of(30)
    agreed = quantity(plan, 12, (6, planned(plan, 6)), (12, planned(plan, 12)))[1]
    long = quantity(plan, 12, (6, planned(plan, 6)), (12, planned(plan, 12) + 6))[1]
    assert suspected_miscount(plan, agreed) is None
    assert suspected_miscount(plan, long).kind == "bead too many"
    short = replace(long, verdict="off", checks=(), finished=Expected(230.0, 1.0))
    assert suspected_miscount(plan, replace(short, faults=(Fault("bead too many", 0.2, 0, 7, 12),))) is None
    missed = Fault("bead missed", 0.2, 0, 7, 12)
    assert suspected_miscount(plan, replace(short, faults=(missed,))) == missed
    assert suspected_miscount(plan, replace(short, verdict="measure again", faults=(missed,))) is None


def test_no_count_is_asked_for_where_she_just_ties_tighter() -> None:
    """A count costs a minute: it is asked for where a miscount is likely by itself and beside a change of tension."""
    plan = plan_of(30)
    seen = quantity(plan, 12, (6, planned(plan, 6)), (12, planned(plan, 12) - 6))[1]
    short = replace(seen, verdict="off", checks=(), finished=Expected(230.0, 1.0))
    missed, tension = Fault("bead missed", 0.2, 0, 7, 12), Fault("tension changed", 0.35, 0, 7, 12)
    assert suspected_miscount(plan, replace(short, faults=(tension, missed))) is None
    assert suspected_miscount(plan, replace(short, faults=(replace(tension, p=0.2), missed))) == missed
    assert suspected_miscount(plan, replace(short, faults=(replace(missed, p=0.07),))) is None
    many = Fault("bead too many", 0.2, 0, 7, 12)  # nothing makes that one likelier
    assert suspected_miscount(plan, replace(short, faults=(many, replace(missed, p=0.07)))) is None


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
