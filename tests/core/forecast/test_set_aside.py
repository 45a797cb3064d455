"""A reading that later ones contradict sets itself aside, and guidance is that of today."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.forecast.forecaster import Forecaster
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.plan.planner import compile_plan
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from companion.core.words.measured.cord_words import cord_line
from companion.core.words.measured.reading_words import set_aside_line
from tests.core.forecast.longstone import AN_INCH_TOO_MUCH, INCH, READ, longstone, measured, reading
from tests.examples import few_examples


def a_plan() -> Plan:
    cord = CordDesign("silk", diameter_mm=0.45, layers=2, knots=(("single", KnotNumbers(take_up_mm=6, length_mm=2)),))
    glass = BeadKind("glass", "Sea-glass round", length_mm=6, diameter_mm=6)
    return compile_plan(
        Design("T", cord, (glass,), (Strand((Repeat(None, (Bead("glass"), Knot("single"))),)),), Size("length", 230.0))
    )


def strand(plan: Plan, step: int, off_mm: float = 0.0) -> Measured:
    return Measured("strand", step, plan.strands[0].steps[step - 1].strand_mm + off_mm, "")


def outlook_of(plan: Plan, *readings: Measured):  # type: ignore[no-untyped-def]
    return Forecaster(plan, faults=True).outlook(Piece(plan.total_steps, readings[-1].step, readings=readings))


def test_an_old_slip_is_set_aside_and_named_and_the_word_is_todays() -> None:
    plan = a_plan()
    slip = strand(plan, 6, -25.4)
    outlook = outlook_of(plan, slip, strand(plan, 10), strand(plan, 14))
    assert outlook.set_aside == (slip,)
    assert outlook.verdict == "on plan"
    line = set_aside_line(plan, outlook)
    assert line is not None
    assert line.text.endswith("after step 6 doesn't fit the others. It is set aside.")


def test_what_is_set_aside_bears_on_nothing() -> None:
    plan = a_plan()
    rest = (strand(plan, 10, 0.6), strand(plan, 14, 0.9))
    with_it, without = outlook_of(plan, strand(plan, 6, 25.4), *rest), outlook_of(plan, *rest)
    assert with_it.finished == without.finished
    assert with_it.faults == without.faults


def test_the_latest_reading_is_asked_for_again_not_set_aside() -> None:
    plan = a_plan()
    outlook = outlook_of(plan, strand(plan, 6), strand(plan, 10), strand(plan, 14, -25.4))
    assert outlook.set_aside == ()
    assert outlook.verdict == "measure again"


def test_a_slip_once_all_is_strung_is_named_by_its_own_step() -> None:
    """Three readings of the whole strand, at its last knot and while it is closed: the one that does not fit is wrong,
    and it is not called by the step of a good one."""
    plan = a_plan()
    steps = plan.strands[0].steps
    last = max(step.number for step in steps if step.kind == "string")
    right, slip = strand(plan, last), Measured("strand", last + 1, 90.0, "")
    asked = outlook_of(plan, strand(plan, 10), right, slip)
    assert (asked.verdict, asked.set_aside) == ("measure again", ())
    assert next(fault.from_step for fault in asked.faults if fault.kind == "misread") == last + 1
    again = Measured("strand", last, right.length_mm, "")  # measured again, of as much strung
    assert outlook_of(plan, strand(plan, 10), right, slip, again).set_aside == (slip,)


def test_readings_that_agree_all_count() -> None:
    plan = a_plan()
    assert outlook_of(plan, strand(plan, 6, 0.5), strand(plan, 10, -0.5), strand(plan, 14)).set_aside == ()


def test_cord_read_far_too_short_is_not_called_enough_until_it_is_read_again() -> None:
    plan = a_plan()
    step = plan.strands[0].steps[13]
    left_mm = plan.cuts[0].cut_mm / 2 - step.cord_used_mm
    strands = (strand(plan, 6), strand(plan, 10))
    short = Measured("free", 14, left_mm - 200, "")
    doubted = outlook_of(plan, *strands, short)
    assert doubted.doubted == "free"
    assert doubted.entries[0].cord.verdict == "runs out"
    told = cord_line(plan, doubted)
    assert told.level == "off"
    assert "Measure the leftover cord again" in told.action
    again = outlook_of(plan, *strands, short, Measured("free", 14, left_mm, ""))
    assert again.entries[0].cord.verdict == "enough"
    assert again.set_aside == (short,)


def test_an_old_slip_that_several_readings_speak_against_sets_itself_aside() -> None:
    """Beads were counted: then not a bead but the second reading of step 16 is wrong, and what came after it counts."""
    plan = longstone()
    _, before = measured(plan, *READ[:4])
    assert before.verdict == "recount"
    _, two = measured(plan, *READ[:5], counted=True)
    assert two.verdict == "off"  # whatever the old one says, it comes out too short
    _, three = measured(plan, *READ, counted=True)
    assert three.set_aside == (reading(*AN_INCH_TOO_MUCH), reading(16, 9 + 3 / 16))
    assert three.verdict == "off"


@few_examples
@given(off=st.one_of(st.floats(1.0, 5.0), st.floats(-5.0, -1.0)), step=st.integers(14, 24))
def test_a_reading_that_is_not_believed_makes_nothing_surer(off: float, step: int) -> None:
    """The finished length is as wide after it as before it; so is the strand as it is now."""
    plan = longstone()
    slip = plan.strands[0].steps[step - 1].strand_mm / INCH + off
    before_it, with_it = (measured(plan, *readings)[1] for readings in ([READ[0]], [READ[0], (step, slip)]))
    assert with_it.verdict == "measure again"
    assert with_it.finished == before_it.finished
    assert with_it.entries[0].strand_end == before_it.entries[0].strand_end


def test_a_likely_slip_of_a_known_size_is_not_read_as_a_good_reading_beside_it() -> None:
    plan = longstone()
    right, exact = 9 + 3 / 16, 9 + 3 / 16 + 10 / INCH
    before, with_it, without = (
        measured(plan, *readings)[1].finished
        for readings in ([READ[0]], [READ[0], (16, exact)], [READ[0], (16, right)])
    )
    assert with_it.sd_mm > without.sd_mm + 0.8 * (before.sd_mm - without.sd_mm)


@pytest.mark.parametrize("readings", [READ[:1], READ[:2], READ[:3], READ[:5]])
def test_every_doubt_names_a_reading_of_the_piece(readings) -> None:  # type: ignore[no-untyped-def]
    piece, outlook = measured(longstone(), *readings, counted=len(readings) > 4)
    assert outlook.doubtful is None or any(outlook.doubtful is one for one in piece.readings)
