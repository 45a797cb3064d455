"""A little looser or tighter from here on."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from statistics import NormalDist

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Repeat
from companion.core.values.expected import Z95
from tests.core.remedies.off_plan import G, K, aimed, family, planned, what_to_do

PLAN = planned((Repeat(25, (G, K)),), 200.0)


@pytest.mark.parametrize(("off_mm", "run", "mm"), [(3.2, "looser", "2.2"), (-3.2, "tighter", "1.8")])
def test_it_comes_first_and_says_how_much(off_mm, run, mm) -> None:
    """Sixteen knots of 2 mm are left: 0.2 mm each make 3.2 mm."""
    before = sum(step.kind == "start" for step in PLAN.strands[0].steps)
    worn_mm = 200.0 - USUAL.settling_share * 26 * 2.0  # its knots settled, as the forecast gives it
    _, outlook, found = what_to_do(aimed(PLAN, worn_mm + off_mm), before + 9)
    assert outlook.verdict == "off"
    one = found[0]
    assert one.family == ("tension",)
    assert one.what == f"Tie a little {run} from here on: knots of {mm} mm instead of 2.0 mm"
    assert one.finished_mm == pytest.approx(worn_mm + off_mm, abs=0.01)
    assert one.cord_mm == pytest.approx(16 * 0.1 * 8 * (1 if off_mm > 0 else -1), rel=0.05)
    assert one.p_in_tolerance > outlook.p_in_tolerance


def test_more_than_a_little_is_not_offered() -> None:
    _, _, found = what_to_do(aimed(PLAN, 212.0), 10)
    assert found
    assert family(found, "tension") is None


def test_nor_where_hardly_a_knot_is_left() -> None:
    last = max(step.number for step in PLAN.strands[0].steps if step.kind == "string")
    _, _, found = what_to_do(aimed(PLAN, 203.5), last - 2)
    assert family(found, "tension") is None


def test_in_inches_it_is_so_many_knots_with_their_beads_that_a_ruler_can_tell() -> None:
    """Knots lie beside their beads, never ten in a row: what is measured is both."""
    plan = aimed(replace(PLAN, unit="in"), 203.2)
    _, _, found = what_to_do(plan, 10)
    one = family(found, "tension")
    told = re.fullmatch(
        r"Tie a little looser from here on. The next (\d+) knots with their beads should measure (.+) in, not (.+) in",
        one.what,
    )
    assert told, one.what
    count = int(told[1])
    then_mm, now_mm = (float(sum(map(Fraction, part.split()))) * 25.4 for part in told.groups()[1:])
    sixteenth_mm = 25.4 / 16
    assert now_mm == pytest.approx(count * (6 + 2), abs=sixteenth_mm)
    assert then_mm - now_mm == pytest.approx(count * 2 * one.knots_longer, abs=sixteenth_mm)
    assert then_mm > now_mm


def test_looser_knots_that_the_cord_does_not_allow_are_not_offered() -> None:
    _, outlook, found = what_to_do(aimed(PLAN, 203.2), 10, cut_share=0.6)
    assert outlook.entries[0].cord.verdict == "runs out"
    one = family(found, "tension")
    assert one is None or one.p_short <= outlook.entries[0].cord.p_short


def test_the_chance_is_of_hands_that_do_not_hit_it_exactly() -> None:
    """A second way: the length that the rest gains is itself uncertain, by a third of what was asked."""
    worn_mm = 200.0 - USUAL.settling_share * 26 * 2.0
    before = sum(step.kind == "start" for step in PLAN.strands[0].steps)
    plan = replace(aimed(PLAN, worn_mm + 4.0), tolerance_mm=1.5)
    piece, _, found = what_to_do(plan, before + 9)
    one = family(found, "tension")
    only = plan.strands[0]
    exact = replace(plan, strands=(replace(only, closure_length_mm=only.closure_length_mm + 4.0),))
    hit = Forecaster(exact, faults=True).outlook(piece)
    sd_mm = math.hypot(hit.finished.half95_mm / Z95, 4.0 / 3)
    assert one.half95_mm == pytest.approx(Z95 * sd_mm, rel=0.02)
    assert one.p_in_tolerance < hit.p_in_tolerance - 0.01
    assert one.p_in_tolerance == pytest.approx(1 - 2 * NormalDist(0, sd_mm).cdf(-1.5), abs=0.03)
