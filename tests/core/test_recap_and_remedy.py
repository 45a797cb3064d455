"""What to count again, and what would bring a piece back."""

from __future__ import annotations

import pytest

from companion.core.forecast.forecaster import forecast
from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.remedies.search import remedies
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
        (5, "Count back from the last one: 5 Glass, to the start."),
        (6, "Count back from the last one: 1 Silver, then 5 Glass, to the start."),
        (8, "Count back from the last one: 2 Glass, then 1 Silver, to the last Glass."),
        (10, "Count back from the last one: 4 Glass, to the last Silver."),
    ],
)
def test_beads_since_the_last_landmark(made, words) -> None:
    plan = plan_of([Repeat(5, (G, K)), S, K, Repeat(5, (G, K))])
    told = recap(plan, Piece(plan.total_steps, made + 1))  # one start step
    assert told.recount == words
    beads = [step for step in plan.strands[0].steps if step.kind == "string"]
    assert told.last.startswith(f"Last made: {beads[made - 1].text}.")


def test_nothing_made_and_all_made() -> None:
    plan = plan_of([Repeat(5, (G, K))])
    assert recap(plan, Piece(plan.total_steps, 0)).lines[0] == "Nothing is made yet."
    assert recap(plan, Piece(plan.total_steps, plan.total_steps)).next == "Every step is made."


def off_by(share: float):
    plan = plan_of([Repeat(25, (G, K))])
    step = 13
    reading = Measured("strand", step, plan.strands[0].steps[step - 1].strand_mm * (1 + share), "x")
    piece = Piece(plan.total_steps, step, readings=(reading,))
    outlook = forecast(plan, piece)
    return plan, outlook, remedies(plan, piece, outlook, faults=False)


@pytest.mark.parametrize(("share", "word", "count"), [(-0.06, "One more", 26), (0.06, "One fewer", 24)])
def test_a_repeat_more_or_fewer(share, word, count) -> None:
    """It gives what a plan of that many repeats would, with the same readings and the same cord."""
    plan, outlook, found = off_by(share)
    assert outlook.verdict in ("watch", "off")
    one = next(one for one in found if one.family == ("repeats",))
    assert one.text.startswith(f"{word} of «glass, then a single knot» in what is left: it would finish at ")
    other = plan_of([Repeat(count, (G, K))])
    reading = Measured("strand", 13, plan.strands[0].steps[12].strand_mm * (1 + share), "x")
    cut = CutEntered(0, plan.cuts[0].cut_mm, "")
    fresh = forecast(other, Piece(other.total_steps, 13, readings=(reading,), cuts=(cut,)))
    assert one.finished_mm == pytest.approx(fresh.finished.mean_mm)
    assert one.p_in_tolerance == pytest.approx(fresh.p_in_tolerance)
    assert one.p_run_out == pytest.approx(fresh.entries[0].cord.p_run_out)
    assert one.cord_mm == pytest.approx(14 * (count - 25))
    assert one.p_in_tolerance > outlook.p_in_tolerance


def test_no_remedy_where_nothing_is_wrong() -> None:
    _, outlook, found = off_by(0.0)
    assert outlook.verdict == "on plan"
    assert found == ()
