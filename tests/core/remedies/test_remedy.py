"""Choosing a remedy."""

from __future__ import annotations

from companion.core.journal.events import Jumped, Started
from companion.core.journal.fold import after, fold, undo_of
from companion.core.plan.replan import changed_plan
from tests.core.remedies.off_plan import aimed, family, mirror_plan, what_to_do


def test_choosing_folds_into_the_piece_and_undo_brings_the_old_steps_back() -> None:
    plan = mirror_plan("from the middle")
    off = aimed(plan, plan.finished_length_mm + 16)
    one = family(what_to_do(off, 4)[2], "repeats")
    change = one.event(changed_plan(off, (one.event(0),)).total_steps)
    piece = fold([Started(off.total_steps), Jumped(4), change])
    assert changed_plan(off, piece.changes).total_steps == piece.total_steps == off.total_steps + 2
    back = after(piece, undo_of(piece))
    assert (back.changes, back.total_steps, back.done) == ((), off.total_steps, 4)
