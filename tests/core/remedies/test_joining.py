"""Where new cord is best joined on."""

from __future__ import annotations

import pytest

from companion.core.journal.events import Confirmed, CutEntered, Started
from companion.core.journal.fold import fold
from companion.core.plan.planner import compile_plan
from companion.core.remedies.joining import join_place
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from tests.core.outlooks import forecast
from tests.core.remedies.off_plan import short_of_cord

G, K, S = Bead("g"), Knot("single"), Bead("s")
CORD = CordDesign("silk", 0.45, 1, knots=(("single", KnotNumbers(6, 2)),))
KINDS = (BeadKind("g", "Glass", 6, 6, 1.0), BeadKind("s", "Slate", 14, 6, 1.0))


@pytest.fixture
def plan():
    layout = (Repeat(10, (G, K, G, K, S, K)),)
    return compile_plan(Design("Light", CORD, KINDS, (Strand(layout),), Size("length", 350.0)))


def begun(plan, steps: int, short_mm: float):
    cut = CutEntered(0, plan.cuts[0].cut_mm - short_mm, "cut")
    return fold([Started(plan.total_steps), cut, *(Confirmed(n) for n in range(1, steps + 1))])


def test_the_place_to_join_is_inside_a_long_bead_that_is_still_reached(plan) -> None:
    piece = begun(plan, 12, 260)
    outlook = forecast(plan, piece)
    step = outlook.entries[0].cord.step
    words = join_place(plan, outlook)
    assert words.startswith("Best inside a bead: Slate of step ")
    named = int(words.rsplit(" ", 1)[1])
    assert 12 < named < step
    assert plan.strands[0].steps[named - 1].beads == ("s",)


def test_the_widest_hole_comes_before_the_longest_bead() -> None:
    kinds = (KINDS[0], BeadKind("s", "Slate", 14, 6, 1.0), BeadKind("w", "Wide", 5, 6, 2.5))
    layout = (Repeat(10, (G, K, Bead("w"), K, S, K)),)
    wide = compile_plan(Design("Light", CORD, kinds, (Strand(layout),), Size("length", 350.0)))
    piece = begun(wide, 12, 260)
    words = join_place(wide, forecast(wide, piece))
    assert words.startswith("Best inside a bead: Wide of step ")


def test_cord_is_joined_inside_a_bead_before_it_runs_out() -> None:
    _, outlook, found = short_of_cord()
    one = next(one for one in found if one.join)
    assert "Best inside a bead: Glass of step " in one.text
    named = int(one.text.rstrip(".").rsplit(" ", 1)[1])
    assert 10 < named < outlook.entries[0].cord.step
    assert one.cord_mm == pytest.approx(-outlook.entries[0].cord.short_mm)
