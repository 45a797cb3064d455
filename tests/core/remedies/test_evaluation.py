"""A remedy's forecast is that of the plan it leads to."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.journal.events import CutEntered, Measured
from companion.core.journal.piece import Piece
from companion.core.remedies.search import remedies
from companion.core.values.design import Repeat
from tests.core.outlooks import forecast
from tests.core.remedies.off_plan import G, K, family, planned


def off_by(share: float, as_you_go: bool = False):
    plan = planned((Repeat(25, (G, K)),), 200.0)
    if as_you_go:
        plan = replace(plan, strands=(replace(plan.strands[0], strung_all_first=False),))
    step = 13
    reading = Measured("strand", step, plan.strands[0].steps[step - 1].strand_mm * (1 + share), "x")
    piece = Piece(plan.total_steps, step, readings=(reading,))
    outlook = forecast(plan, piece)
    return plan, outlook, remedies(plan, piece, outlook, faults=False)


@pytest.mark.parametrize(("share", "word", "count"), [(-0.06, "One more", 26), (0.06, "One fewer", 24)])
@pytest.mark.parametrize("as_you_go", [False, True])
def test_a_repeat_more_or_fewer(share, word, count, as_you_go) -> None:
    """It gives what a plan of that many repeats would, with the same readings and the same cord."""
    plan, outlook, found = off_by(share, as_you_go)
    assert outlook.verdict in ("watch", "off")
    one = family(found, "repeats")
    first = {26: "thread one more on at the loose end", 24: "take one off the loose end"}[count]
    loose = "" if as_you_go else f" All beads are strung already: first {first}."
    assert one.text.startswith(f'{word} "glass, single knot" from here on.{loose} It would finish at ')
    other = planned((Repeat(count, (G, K)),), 200.0)
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
