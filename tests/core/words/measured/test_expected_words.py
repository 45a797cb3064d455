"""Where the leftover cord is measured: from what, and along which beads."""

from __future__ import annotations

import pytest

from companion.core.plan.planner import compile_plan
from companion.core.values.expected import Expected
from companion.core.words.measured.expected_words import expected_between, where_leftover
from companion.storage.design.files import read_design
from tests.core.hand_plans import hand_plan

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


def test_without_a_drawing_the_ruler_is_told_between_what_it_may_be_and_what_the_plan_says() -> None:
    plan = hand_plan(unit="in")
    expected = Expected(5.5625 * 25.4, 0.0625 * 25.4, 5.4375 * 25.4, 5.6875 * 25.4)
    said = "The strand should measure 5 9/16 in, anything from 5 7/16 to 5 11/16 in."
    assert expected_between(plan, "strand", expected, 5.5625 * 25.4) == said
    assert expected_between(plan, "strand", expected, None) == said
    assert expected_between(plan, "strand", expected, 5.5 * 25.4) == f"{said} The plan says 5 1/2 in."
    assert "anything from 0 to " in expected_between(plan, "strand", Expected(0.5, 1.0), None)
