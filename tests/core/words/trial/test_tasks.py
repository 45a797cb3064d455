"""What the sample piece asks for: in an order in which each can be done, and with lengths that her ruler would say."""

from __future__ import annotations

from msgspec.structs import replace

from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, Strand
from companion.core.words.trial.tasks import BEGUN, MEASURED, OFF, Seen, sample_readings_mm, tasks

GLASS = BeadKind("glass", "Sea-glass round", 6.0, 6.0)
ROW = Strand((Knot("single"), *(Bead("glass"), Knot("single")) * 30))
PLAN = compile_plan(Design("Sample", CordDesign("silk", 0.45), (GLASS,), (ROW,)))


def test_no_task_is_done_before_anything_is() -> None:
    begun = Seen(Piece(PLAN.total_steps, BEGUN), "steps")
    assert [task.told for task in tasks(PLAN) if task.done(begun)] == [tasks(PLAN)[9].told]  # back on the steps


def test_steps_that_are_marked_do_the_first_ones() -> None:
    steps = [tasks(PLAN)[place] for place in (0, 2, 4)]
    for task, done in zip(steps, (BEGUN + 1, MEASURED, OFF), strict=True):
        seen = Seen(Piece(PLAN.total_steps, done), "steps")
        assert task.done(seen)
        assert not task.done(replace(seen, piece=replace(seen.piece, done=done - 1)))


def test_the_second_reading_is_short_by_one_bead_and_its_knot() -> None:
    right_mm, short_mm = sample_readings_mm(PLAN)
    steps = PLAN.strands[0].steps
    assert right_mm == steps[MEASURED - 1].strand_mm
    assert short_mm == steps[OFF - 2].strand_mm
