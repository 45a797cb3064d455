"""What finished pieces teach a card, on simulated pieces: narrower with each, truer on average, not carried away."""

from __future__ import annotations

import json
from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.core.cord.cord import CardFigures, KnotFigures
from companion.core.cord.knot_tests import KnotTest, TouchingRow, figures_from_tests
from companion.core.cord.lessons import Lesson, joined_lessons, of_event, taught, to_events
from companion.core.forecast.forecaster import Forecaster
from companion.core.forecast.learning import ended, lessons, no_lesson
from companion.core.journal.event_document import event_from_document, event_to_document
from companion.core.journal.events import CutEntered, Finished, Measured
from companion.core.journal.piece import Piece
from companion.core.plan.planner import compile_plan
from companion.core.values.assumptions import USUAL
from companion.core.values.design import Bead, BeadKind, CordDesign, Design, End, Knot, Repeat, Size, Strand
from tests.core.oracles.dense import Dense
from tests.examples import LONG

CORD = CordDesign("silk", 0.6, 1, card="silk")
GLASS = BeadKind("g", "Glass", 6, 6, 1.0)
KNOTS = 60
of_makers = pytest.mark.xdist_group("makers")  # whose cards are made once
LENGTH_MM, TAKE_UP_MM = 1.8, 5.8  # what this maker's knots really are on average


def first_card(draw) -> KnotFigures:
    takes = TAKE_UP_MM * (1 + 0.12 * draw.normal(size=3))
    rows = tuple(KnotTest(250.0, round(250.0 - take + draw.normal(0, 0.7)), 1) for take in takes)
    row_mm = sum(LENGTH_MM * (1 + 0.12 * draw.normal(size=3)))
    return figures_from_tests(CORD, "single", rows, (TouchingRow(round(row_mm + draw.normal(0, 0.5)), 3),))


def plan_with(figures: KnotFigures):
    layout = (Repeat(KNOTS, (Bead("g"), Knot("single"))),)
    strand = Strand(layout, End("plain tail", tail_mm=0.0), End("plain tail", tail_mm=100.0))
    card = CardFigures("silk", (("single", figures),), diameter_mm=0.6, layers=1)
    return compile_plan(Design("Dun light", CORD, (GLASS,), (strand,), Size("length", 480.0)), card)


def finished(draw, plan, name="piece", off=0.0):
    """A piece made by this maker, measured half way and at its end: its lessons."""
    one, two = draw.normal(size=2)
    factors = 1 + off + 0.05 * one, 1 + off + 0.05 * (0.7 * one + sqrt(1 - 0.49) * two)
    own = 1 + 0.12 * draw.normal(size=(2, KNOTS))
    beads = 6 * (1 + draw.normal(0, 0.01) + 0.01 * draw.normal(size=KNOTS))
    lengths = np.cumsum(beads + LENGTH_MM * factors[0] * own[0])
    used = lengths[-1] + float(np.sum(TAKE_UP_MM * factors[1] * own[1]))
    cut_mm = plan.strands[0].cut_mm
    half = next(step for step in plan.strands[0].steps if step.elements == KNOTS)
    reading = Measured("strand", half.number, float(round(lengths[KNOTS // 2 - 1] + draw.normal(0, 1))), "")
    piece = Piece(plan.total_steps, plan.total_steps, cuts=(CutEntered(0, cut_mm, ""),), readings=(reading,))
    whole = ended(plan, piece, float(round(lengths[-1])), float(round(cut_mm - used + draw.normal(0, 2))))
    return lessons(plan, whole, name)


def test_a_piece_that_cannot_be_hardly_moves_a_card_that_knows_little() -> None:
    """A card of one test knot, 6 ± 0.5, and a piece that says 12 ± 0.4; but ten that agree on 8 do move it."""
    assert joined_lessons((6.0, 0.5), [(12.0, 0.4)])[0] < 6.4
    assert joined_lessons((6.0, 0.5), [(8.0, 0.4)] * 10)[0] > 7.7
    assert joined_lessons((6.0, 0.5), [(6.4, 0.4)])[0] == pytest.approx(6.26, abs=0.05)


@pytest.fixture(scope="module")
def makers():
    """The card before, after three and after ten pieces, of twenty makers; of forty in the long run."""
    found = []
    for seed in range(40 if LONG else 20):
        draw = np.random.default_rng([seed, 7])
        before = first_card(draw)
        plan = plan_with(before)
        learnt = [lesson for number in range(10) for lesson in finished(draw, plan, f"piece {number}")]
        assert len(learnt) == 10
        found.append((before, taught(before, learnt[:3]), taught(before, learnt)))
    return found


@of_makers
def test_ten_pieces_make_the_card_narrower_than_three_and_three_than_none(makers) -> None:
    for before, three, ten in makers:
        assert ten.take_up_sd_mm < three.take_up_sd_mm < before.take_up_sd_mm
        assert ten.length_sd_mm < three.length_sd_mm < before.length_sd_mm
        # Ten pieces know a mean no better than 6 % / sqrt(10): the piece effect is in each.
        assert ten.take_up_sd_mm > 0.8 * USUAL.piece_cv / sqrt(10) * ten.take_up_mm * 0.8


@of_makers
def test_and_truer_by_as_much_as_they_say(makers) -> None:
    off = np.array([[figures.take_up_mm - TAKE_UP_MM for figures in three] for three in makers])
    rms = np.sqrt((off**2).mean(axis=0))
    assert rms[2] < rms[1] < rms[0]
    within_two = [abs(ten.take_up_mm - TAKE_UP_MM) < 2.2 * ten.take_up_sd_mm for _, _, ten in makers]
    assert np.mean(within_two) > 0.85
    lengths = np.array([[figures.length_mm - LENGTH_MM for figures in three] for three in makers])
    assert np.sqrt((lengths**2).mean(axis=0))[2] < np.sqrt((lengths**2).mean(axis=0))[0]


def test_one_odd_piece_does_not_carry_the_card_away() -> None:
    """Nine pieces as usual and one worked 40 % looser: the card moves by less than half of what a plain mean would."""
    shares = []
    for seed in range(12):
        draw = np.random.default_rng([seed, 9])
        before = first_card(draw)
        plan = plan_with(before)
        usual = [finished(draw, plan, f"piece {number}")[0] for number in range(9)]
        odd = finished(draw, plan, "odd", off=0.4)[0]
        assert odd.take_up is not None
        calm, after = taught(before, usual), taught(before, [*usual, odd])
        plain = (odd.take_up[0] - calm.take_up_mm) / odd.take_up[1] ** 2 * calm.take_up_sd_mm**2
        shares.append((after.take_up_mm - calm.take_up_mm) / plain)
    assert np.median(shares) < 0.5
    assert max(shares) < 0.75


def test_a_lesson_by_the_dense_solve() -> None:
    """What a piece says of the mean, worked out with numpy over every knot and bead: posterior less prior."""
    draw = np.random.default_rng(3)
    before = first_card(draw)
    plan = plan_with(before)
    step = next(step for step in plan.strands[0].steps if step.elements == 2 * KNOTS)
    piece = Piece(plan.total_steps, plan.total_steps, readings=(Measured("strand", step.number, 489.0, ""),))
    (lesson,) = lessons(plan, piece, "piece")
    dense = Dense(plan, USUAL)
    mean, _, weights, _ = dense.rows[0, 2 * KNOTS]
    row = np.zeros(len(dense.unknowns))
    for unknown, weight in weights.items():
        row[unknown] = weight
    variance = row @ row + (USUAL.strand_scale_cv * mean) ** 2 + 1 / 12 + USUAL.strand_handling_mm**2
    shared = KNOTS * before.length_sd_mm**2  # every knot has the mean's own error
    after = before.length_mm + shared / variance * (489.0 - mean)
    left = before.length_sd_mm**2 - shared**2 / variance
    assert lesson.length is not None
    precisions = 1 / before.length_sd_mm**2, 1 / lesson.length[1] ** 2
    joined = (precisions[0] * before.length_mm + precisions[1] * lesson.length[0]) / sum(precisions)
    assert joined == pytest.approx(after, rel=1e-9)
    assert 1 / sum(precisions) == pytest.approx(left, rel=1e-9)


PAIRS = st.tuples(st.floats(4, 8), st.floats(0.2, 1.5))


@given(PAIRS, st.lists(PAIRS, max_size=8), st.randoms(use_true_random=False))
def test_the_order_of_the_pieces_does_not_matter_and_each_narrows(before, seen, rng) -> None:
    mean, sd = joined_lessons(before, seen)
    shuffled = list(seen)
    rng.shuffle(shuffled)
    other = joined_lessons(before, shuffled)
    assert other[0] == pytest.approx(mean, rel=1e-6)
    assert sd <= before[1] * (1 + 1e-9) or len(seen) > 1
    assert (
        min(value for value, _ in [before, *seen]) - 1e-9 <= mean <= max(value for value, _ in [before, *seen]) + 1e-9
    )


def test_lessons_are_kept_in_the_journal_as_they_were() -> None:
    draw = np.random.default_rng(4)
    learnt = (*finished(draw, plan_with(first_card(draw))), Lesson("piece", "double", 3, None, (2.5, 0.3)))
    event = Finished(480.0, 120.0, "silk", to_events(learnt))
    kind, values = event_to_document(event)
    again = event_from_document(kind, json.loads(json.dumps(values)))
    assert isinstance(again, Finished)
    assert (again, of_event("piece", again)) == (event, learnt)
    for wrong in (
        ("triple", 0, 1.0, 1.0, 1.0, 1.0),
        ("knot", 3, 1.0, 1.0, 1.0, 1.0),
        ("single", 3, -1.0, 1.0, 1.0, 1.0),
    ):
        with pytest.raises(ValueError, match="lesson"):
            of_event("piece", Finished(lessons=(wrong,)))


def test_what_teaches_nothing() -> None:
    known = replace(first_card(np.random.default_rng(1)), take_up_sd_mm=0.1, length_sd_mm=0.05)
    plan = plan_with(known)
    step = next(step for step in plan.strands[0].steps if step.elements == KNOTS)
    made = Piece(plan.total_steps, plan.total_steps)
    assert lessons(plan, made, "piece") == ()
    steps = plan.strands[0].steps
    off = ((-20, 0.0), (-10, -6.1), (0, -6.0), (10, -6.2), (20, -6.1))
    slips = tuple(Measured("strand", step.number + n, steps[step.number + n - 1].strand_mm + mm, "") for n, mm in off)
    lost = Piece(plan.total_steps, plan.total_steps, readings=slips)
    assert "bead" in no_lesson(plan, Forecaster(plan, faults=True).outlook(lost))
    assert no_lesson(plan, Forecaster(plan, faults=True).outlook(made)) == ""
    assert (
        taught(plan.cord.single, [Lesson("p", "single", 60, None, (1.9, 0.1))]).take_up_mm
        == plan.cord.single.take_up_mm
    )
