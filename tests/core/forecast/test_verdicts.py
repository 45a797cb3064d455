"""On plan, watch or off; enough, scant or runs out: the words and where one turns into the next."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.outlook import Fault
from companion.core.forecast.verdicts import cord_verdict, on_plan_between, verdict
from companion.core.journal.events import Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, Knot, KnotNumbers, Repeat, Size, Strand
from tests.core.forecast.light import G, K, plan_of
from tests.core.outlooks import forecast

KINDS = (BeadKind("g", "Glass", 6, 6, 1.0),)
CORD = CordDesign("silk", 0.45, 2, knots=(("single", KnotNumbers(6, 2)),))
INCH = 25.4


def bracelet(tolerance_mm: float = 3.0, size_mm: float = 7.5 * INCH):
    """24 beads and knots, 192 mm, for a bracelet of 7 1/2 in."""
    layout = (Repeat(24, (Bead("g"), Knot("single"))),)
    return compile_plan(Design("Dun light", CORD, KINDS, (Strand(layout),), Size("length", size_mm, 0, tolerance_mm)))


def measured(plan, share: float, knots: int = 12, faults: bool = False):
    step = next(step for step in plan.strands[0].steps if step.elements == 2 * knots)
    reading = Measured("strand", step.number, step.strand_mm * (1 + share), "")
    return Forecaster(plan, faults=faults).outlook(Piece(plan.total_steps, step.number, readings=(reading,)))


@pytest.mark.parametrize("faults", [False, True])
def test_five_per_cent_short_at_half_way_is_not_on_plan(faults) -> None:
    found = measured(bracelet(), -0.05, faults=faults)
    assert found.verdict in ("watch", "off")
    assert found.finished.high95_mm < bracelet().finished_length_mm
    assert measured(bracelet(), 0.05, faults=faults).verdict in ("watch", "off")  # the plan itself is 1.5 mm over
    for share in (-0.05, 0.05):  # and at three quarters it is off
        assert measured(bracelet(), share, 18, faults).verdict == "off"


@pytest.mark.parametrize("faults", [False, True])
@pytest.mark.parametrize("tolerance_mm", [0.5, 1.0, 3.0, 12.0])
@pytest.mark.parametrize("knots", [3, 6, 12, 24])
def test_at_plan_is_on_plan_however_narrow_the_tolerance(faults, tolerance_mm, knots) -> None:
    """A tolerance that nobody could foretell is no reason for a warning."""
    assert measured(bracelet(tolerance_mm, 192.0), 0.0, knots, faults).verdict == "on plan"


def test_before_any_reading_nothing_is_an_alarm() -> None:
    """What the design itself misses was said before the work began."""
    fresh = Piece(total_steps=26)
    for tolerance_mm, size_mm in ((3.0, 190.5), (0.5, 192.4), (3.0, 260.0), (3.0, 208.0), (3.0, 150.0)):
        assert forecast(bracelet(tolerance_mm, size_mm), fresh).verdict == "on plan"
    bare = compile_plan(Design("Dun light", CORD, KINDS, (Strand((Bead("g"), Knot("single"))),)))
    without = forecast(bare, fresh)
    assert (without.verdict, without.p_in_tolerance) == ("no target", None)


def test_shares_of_what_could_be_had_at_best() -> None:
    """Sd 2, tolerance 3: a piece on its plan has 0.8664 (JCGM 106:2012, clause 7); watch below three quarters of that,
    0.6498, off below 0.65 of it, 0.5632. By hand, over the upper limit by z: Φ((3 - x) / 2) - Φ((-3 - x) / 2)."""
    plan = replace(bracelet(), target_mm=200.0, tolerance_mm=3.0, finished_length_mm=200.0)
    words = {}
    for off, p in ((0.0, 0.866386), (2.19, 0.652532), (2.21, 0.648985), (2.67, 0.564180), (2.69, 0.560298)):
        words[off] = verdict(plan, 2.0, p, (), USUAL, strung=0.75)
    assert list(words.values()) == ["on plan", "on plan", "watch", "watch", "off"]


def test_early_in_a_piece_an_alarm_waits_unless_it_is_all_but_certain() -> None:
    """The same chances with half of the strand to come: a hundredth of 0.8664 is 0.0087."""
    plan = replace(bracelet(), target_mm=200.0, tolerance_mm=3.0, finished_length_mm=200.0)
    for strung, words in ((0.0, ["watch", "watch", "off"]), (0.59, ["watch", "watch", "off"]), (0.6, ["off"] * 3)):
        found = [verdict(plan, 2.0, p, (), USUAL, strung=strung) for p in (0.56, 0.0088, 0.0086)]
        assert found == words


@pytest.mark.parametrize(("knots", "share", "word"), [(6, 0.04, "watch"), (12, 0.03, "watch"), (18, 0.03, "off")])
def test_the_share_that_is_strung_is_that_of_the_latest_reading(knots, share, word) -> None:
    """A few in a hundred longer than planned, 3 of 192 mm allowed: likely to be too long, and not certain."""
    assert measured(bracelet(3.0, 192.0), 0.0, knots).verdict == "on plan"
    assert measured(bracelet(3.0, 192.0), share, knots).verdict == word


def test_a_piece_of_two_sides_is_half_strung_when_its_first_side_is() -> None:
    """From the middle: 4 mm too long at the end of the first side may still turn out well, halfway down the second
    side it is said."""
    layout = (Repeat(24, (Bead("g"), Knot("single"))),)
    strand = Strand(layout, work="from the middle")
    plan = compile_plan(Design("Dun light", CORD, KINDS, (strand,), Size("length", 192.0, 0, 3.0)))
    first, second = (
        [step for step in one.steps if step.kind == "string"][share - 1]
        for one, share in zip(plan.strands, (12, 6), strict=True)
    )
    readings = (
        Measured("strand", plan.piece_step(0, first.number), first.strand_mm + 3, ""),
        Measured("strand", plan.piece_step(1, second.number), second.strand_mm + 1.5, ""),
    )
    words = [
        Forecaster(plan).outlook(Piece(plan.total_steps, taken[-1].step, readings=taken)).verdict
        for taken in (readings[:1], readings)
    ]
    assert words == ["watch", "off"]


@pytest.mark.parametrize("faults", [False, True])
@pytest.mark.parametrize(("off_mm", "word"), [(2.9, "on plan"), (-2.9, "on plan"), (6.0, "off"), (-6.0, "off")])
def test_once_all_is_strung_a_reading_within_tolerance_is_on_plan(faults, off_mm, word) -> None:
    """However much the readings before it said otherwise: nothing is still to come."""
    plan = bracelet(3.0, 192.0)
    steps = [step for step in plan.strands[0].steps if step.kind == "string"]
    before = tuple(Measured("strand", steps[n].number, steps[n].strand_mm + 2 * off_mm, "") for n in (8, 16))
    last = Measured("strand", steps[-1].number, 192.0 + off_mm, "")
    assert forecast(plan, Piece(plan.total_steps, last.step, readings=(last,))).verdict == word
    if word == "on plan":
        piece = Piece(plan.total_steps, last.step, readings=(*before, last))
        assert Forecaster(plan, faults=faults).outlook(piece).verdict == word


@pytest.mark.parametrize("faults", [False, True])
@pytest.mark.parametrize(("share", "word"), [(-0.05, "off"), (0.0, "on plan"), (0.05, "on plan")])
def test_a_design_that_misses_its_target_is_off_only_by_what_readings_add(faults, share, word) -> None:
    """192 mm for a wrist of 208: five per cent shorter is further off, five per cent longer comes nearer."""
    assert measured(bracelet(3.0, 208.0), share, 18, faults).verdict == word


def test_a_design_that_misses_its_target_is_on_plan_as_far_beyond_itself() -> None:
    """Within tolerance the plan's own place does not matter; 4 mm beside its target, with 3 mm of tolerance, a piece
    may be 3 mm beyond the plan, and as near to the target as can be. By hand, sd 1: 0.1587 of 0.9987 is off."""
    between = {miss: (200.0 - 3.0, 200.0 + max(3.0, miss + 3.0 if miss > 3 else 3.0)) for miss in (0.0, 2.0, 4.0)}
    for miss, lengths in between.items():
        plan = replace(bracelet(), target_mm=200.0, tolerance_mm=3.0, finished_length_mm=200.0 + miss)
        assert on_plan_between(plan) == lengths
    assert on_plan_between(replace(plan, finished_length_mm=190.0)) == (187.0, 203.0)
    words = [verdict(plan, 1.0, p, (), USUAL, strung=0.75) for p in (0.99865, 0.7, 0.158655)]
    assert words == ["on plan", "watch", "off"]


@pytest.mark.parametrize(
    ("p_run_out", "word"),
    [(0.0, "enough"), (0.01, "enough"), (0.0499, "enough"), (0.0501, "scant"), (0.5999, "scant"), (0.6001, "runs out"),
     (1.0, "runs out")],
)  # fmt: skip
def test_enough_scant_runs_out(p_run_out, word) -> None:
    assert cord_verdict(p_run_out, USUAL) == word


def test_a_cord_that_reaches_is_not_said_to_run_out() -> None:
    assert cord_verdict(0.02, USUAL, 0.22) == "enough"
    assert cord_verdict(0.02, USUAL, 0.9) == "short to hold"
    assert cord_verdict(0.06, USUAL, 0.9) == "scant"


def test_a_word_stands_a_little_longer_than_it_comes_up() -> None:
    """A piece whose chance of tolerance wavers about the level does not change its word with every reading."""
    plan = plan_of([Repeat(60, (G, K))], length_mm=480)
    words = [verdict(plan, 2.0, 0.866386 * share, (), USUAL, strung=0.75) for share in (0.74, 0.77, 0.73, 0.79)]
    assert words == ["watch", "on plan", "watch", "on plan"]
    kept, word = [], None
    for share in (0.74, 0.77, 0.73, 0.79, 0.81, 0.76, 0.64, 0.68, 0.71):
        word = verdict(plan, 2.0, 0.866386 * share, (), USUAL, word, strung=0.75)
        kept.append(word)
    assert kept == ["watch"] * 4 + ["on plan", "on plan", "off", "off", "watch"]
    lost, slip = Fault("bead missed", 0.44, 0, 7, 12), Fault("misread", 0.46, 0, 12, 12)
    assert verdict(plan, 2.0, 0.86, (slip, lost), USUAL, strung=0.75) == "measure again"
    assert verdict(plan, 2.0, 0.86, (slip, lost), USUAL, "recount", strung=0.75) == "recount"
    assert verdict(plan, 2.0, 0.86, (replace(lost, p=0.32),), USUAL, "recount", strung=0.75) == "recount"
    assert verdict(plan, 2.0, 0.86, (replace(lost, p=0.32),), USUAL, strung=0.75) == "on plan"


def test_a_change_of_tension_is_judged_by_the_length_it_leads_to() -> None:
    """A sixteenth under 18 in with a quarter allowed is on length, however surely the knots have become tighter."""
    plan = replace(bracelet(), target_mm=200.0, tolerance_mm=6.0, finished_length_mm=200.0)
    tighter = Fault("tension changed", 0.9, 0, 7, 12)
    assert verdict(plan, 2.0, 0.99, (tighter,), USUAL, strung=0.75) == "on plan"
    assert verdict(plan, 2.0, 0.7, (tighter,), USUAL, strung=0.75) == "watch"


def test_an_alarm_is_about_a_reading_that_can_be_taken_again_and_likely_enough() -> None:
    plan = replace(bracelet(), target_mm=200.0, tolerance_mm=6.0, finished_length_mm=200.0)
    slip, tension = Fault("misread", 0.29, 0, 12, 12), Fault("tension changed", 0.1, 0, 7, 12)
    for p, word in ((0.99, "on plan"), (0.7, "watch"), (0.4, "off")):
        assert verdict(plan, 2.0, p, (slip, tension), USUAL, strung=0.75) == word
        assert verdict(plan, 2.0, p, (replace(slip, p=0.8, settled=True), tension), USUAL, strung=0.75) == word
        assert verdict(plan, 2.0, p, (replace(slip, p=0.8), tension), USUAL, strung=0.75) == "measure again"
