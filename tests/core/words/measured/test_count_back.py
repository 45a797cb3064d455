"""Beads that the hand can find: back from the last one done."""

from __future__ import annotations

import pytest

from companion.core.forecast.counting import Stretch, stretch
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, Repeat, Strand
from companion.core.words.measured.count_back import count_back, in_hand

G, S, K = Bead("g"), Bead("s"), Knot("single")
KINDS = (BeadKind("g", "Sea-glass round", 6, 6, 1.0), BeadKind("s", "Silver daisy", 2, 5, 1.0))
LAYOUT = (Repeat(10, (G, K)), S, K, G, K, S, K, Repeat(10, (G, K)))


def plan_of(layout=LAYOUT, work="along"):
    return compile_plan(Design("Light", CordDesign("silk", 0.45), KINDS, (Strand(layout, work=work),)))


@pytest.mark.parametrize(
    ("beads", "words"),
    [
        (1, "Count back from the last bead done: 1 Sea-glass round, to the start."),
        (11, "Count back from the last bead done: 1 Silver daisy, then 10 Sea-glass rounds, to the start."),
        (
            13,
            "Count back from the last bead done, bead 13 from the start: 1 Silver daisy, then 1 Sea-glass round, then "
            "1 Silver daisy, to the Sea-glass round that is bead 10 from the start.",
        ),
        (
            17,
            "Count back from the last bead done, bead 17 from the start: 4 Sea-glass rounds, to the Silver daisy that "
            "is bead 13 from the start.",
        ),
    ],
)
def test_the_landmark_is_one_bead_and_no_other(beads, words) -> None:
    """ "to the last Sea-glass round" was any of two dozen."""
    plan = plan_of()
    assert count_back(plan, plan.strands[0], 2 * beads) == words


@pytest.mark.parametrize(
    ("since", "to", "done", "words"),
    [
        (0, 7, 7, "Back from the last bead done: 7 Sea-glass rounds, to the start."),
        (4, 10, 10, "Back from the last bead done: 6 Sea-glass rounds, then 4 more to the start."),
        (0, 7, 10, "Leave out the last 3 beads, then count back: 7 Sea-glass rounds, to the start."),
        (9, 12, 13, "Leave out the last bead, then count back: 1 Sea-glass round, then 1 Silver daisy, then 1 "
         "Sea-glass round, then 9 more to the start."),
        (11, 17, 17, "Back from the last bead done: 4 Sea-glass rounds, then 1 Silver daisy, then 1 Sea-glass round, "
         "to the Silver daisy that is bead 11 from the start."),
    ],
)  # fmt: skip
def test_the_beads_of_some_steps_as_the_hand_meets_them(since, to, done, words) -> None:
    plan = plan_of()
    first = sum(step.kind == "start" for step in plan.strands[0].steps)
    asked = stretch(plan, first + since if since else 0, first + to)
    assert asked.beads == to - since
    assert in_hand(plan, asked, first + done) == words


def test_a_side_is_counted_from_the_middle_and_two_sides_at_once_are_not_told() -> None:
    plan = plan_of(work="from the middle")
    second = plan.piece_step(1, 0) + sum(step.kind == "start" for step in plan.strands[1].steps)
    assert in_hand(plan, stretch(plan, second, second + 3), second + 3).endswith("to the middle.")
    assert in_hand(plan, stretch(plan, 0, second + 3), second + 3) == ""
    assert in_hand(plan, Stretch(0, 0, 0), 0) == ""
