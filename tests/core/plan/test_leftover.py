"""The cord that is left, measured before the tails are trimmed."""

from __future__ import annotations

from msgspec.structs import replace

from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.leftover import leftover_due, leftover_mm, tails_trimmed, trimming_step
from companion.core.plan.planner import compile_plan
from companion.storage.design.files import read_design
from tests.core.plan.test_shipped_steps import PATTERNS


def test_every_shipped_design_that_trims_says_where() -> None:
    for path in PATTERNS:
        plan = compile_plan(read_design(path).design)
        step = trimming_step(plan)
        trims = [one for one in plan.strands[-1].steps if one.trims]
        assert (step is None) == (not trims), path
        if step:
            assert "rim" in trims[-1].text or "quare" in trims[-1].text, path


def test_due_until_it_is_measured() -> None:
    (skerry,) = (path for path in PATTERNS if path.stem == "skerry-bracelet")
    plan = compile_plan(read_design(skerry).design)
    step = trimming_step(plan)
    piece = Piece(total_steps=plan.total_steps, done=step - 1)
    assert leftover_due(plan, piece)
    early = replace(piece, readings=(Measured("free", step - 5, 300.0, "30 cm"),))
    assert leftover_mm(plan, early) is None
    read = replace(piece, readings=(*early.readings, Measured("free", step - 1, 180.0, "18 cm")))
    assert leftover_mm(plan, read) == 180.0
    assert not leftover_due(plan, read)
    assert not leftover_due(plan, replace(piece, done=step))


def test_each_strand_is_trimmed_by_its_own_end_alone() -> None:
    for path in PATTERNS:
        plan = compile_plan(read_design(path).design)
        trimmed = [step for step in range(plan.total_steps + 1) if tails_trimmed(plan, step)]
        last = trimming_step(plan)
        assert last is None or set(range(last, plan.total_steps + 1)) <= set(trimmed), path
        for step in trimmed:
            entry, number = plan.place(step)
            assert plan.strands[entry].steps[number - 1].kind == "end", path
