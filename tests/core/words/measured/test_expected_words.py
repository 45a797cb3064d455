"""Where the leftover cord is measured: from what, and along which beads."""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.words.measured.expected_words import where_leftover
from companion.storage.design.files import read_design

LOOSE = ", straight along the beads that are still loose"


@pytest.mark.parametrize(
    ("done", "words"),
    [
        (0, "Measure from where the first knot will be to the end of the tail."),
        (3, "Measure from where the first knot will be to the end of the tail."),
        (4, f"Measure from where the first knot will be to the end of the tail{LOOSE}."),
        (5, f"Measure from the last knot to the end of the tail{LOOSE}."),
        (27, f"Measure from the last knot to the end of the tail{LOOSE}."),
        (28, "Measure from the last knot to the end of the tail."),
        (29, "Measure from the closure to the end of the tail."),
    ],
)
def test_silk_with_all_beads_strung_first(skerry, done, words) -> None:
    assert where_leftover(compile_plan(read_design(skerry).design), done) == words


def test_beads_strung_as_the_work_goes_on_are_never_in_the_way(patterns) -> None:
    plan = compile_plan(read_design(patterns / "wolf-rock-necklace.yaml").design)
    assert not plan.strands[0].strung_all_first
    told = {where_leftover(plan, done) for done in range(plan.total_steps + 1)}
    assert not any("loose" in words for words in told)
    assert len(told) == 3
