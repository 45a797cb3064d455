"""What was made last, and what to count again."""

from __future__ import annotations

import pytest

from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from companion.core.words.recap import recap

G, S, K = Bead("g"), Bead("s"), Knot("single")
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Silver", 2, 5, 1.0))
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))


def plan_of(layout, length_mm=200.0, tolerance_mm=3.0):
    return compile_plan(
        Design("Light", CORD, KINDS, (Strand(tuple(layout)),), Size("length", length_mm, 0, tolerance_mm))
    )


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (5, "Count back from the last bead done: 5 Glass, to the start."),
        (6, "Count back from the last bead done: 1 Silver, then 5 Glass, to the start."),
        (
            8,
            "Count back from the last bead done, bead 8 from the start: 2 Glass, then 1 Silver, to the Glass that is "
            "bead 5 from the start.",
        ),
        (
            10,
            "Count back from the last bead done, bead 10 from the start: 4 Glass, to the Silver that is bead 6 from "
            "the start.",
        ),
    ],
)
def test_beads_since_the_last_landmark(made, words) -> None:
    plan = plan_of([Repeat(5, (G, K)), S, K, Repeat(5, (G, K))])
    before = sum(step.kind == "start" for step in plan.strands[0].steps)
    told = recap(plan, Piece(plan.total_steps, made + before))
    assert told.recount == words
    asked = recap(plan, Piece(plan.total_steps, made + before), None, "carry on, then press r")
    assert asked.recount == f"{words} If it is another number, carry on, then press r."
    beads = [step for step in plan.strands[0].steps if step.kind == "string"]
    assert told.last.startswith(f"Last done: {beads[made - 1].text}.")


def test_nothing_made_and_all_made() -> None:
    plan = plan_of([Repeat(5, (G, K))])
    assert recap(plan, Piece(plan.total_steps, 0)).lines[0] == "No step is done yet."
    assert recap(plan, Piece(plan.total_steps, plan.total_steps)).next == "Every step is done."
