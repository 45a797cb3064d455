"""What is said before the ways out: the count first, and what really helps."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.forecast.outlook import CordCheck, Fault
from companion.core.journal.events import Measured, Recounted
from companion.core.journal.piece import Piece
from companion.core.words.measured.ways_words import ways_lines
from tests.core.forecast.longstone import AN_INCH_TOO_MUCH, READ, SIXTEENTH, longstone, measured
from tests.core.outlooks import forecast
from tests.core.remedies.off_plan import G, K, planned

KEYS = {
    "recount": "r",
    "measure again": "m",
    "measure cord again": "c",
    "withdraw": "x",
    "readings": "M, then ",
}
MISSED = Fault("bead missed", 0.8, 0, 13, 18)


@pytest.fixture
def plan():
    return replace(planned([*[G, K] * 25], 200.0), tolerance_mm=12.0)


def said(plan, verdict, *faults, found=True, mean_mm=200.0, counted=(), cord=None):
    piece = Piece(plan.total_steps, 20, counted=counted)
    outlook = forecast(plan, piece)
    finished = replace(outlook.finished, mean_mm=mean_mm)
    outlook = replace(outlook, verdict=verdict, faults=faults, finished=finished)
    if cord:
        outlook = replace(outlook, entries=(replace(outlook.entries[0], cord=cord),))
    return list(ways_lines(plan, piece, outlook, found, KEYS))


@pytest.mark.parametrize("verdict", ["recount", "watch", "off"])
def test_counting_comes_first_and_what_helps_is_the_screen(verdict) -> None:
    plan = planned([*[G, K] * 25], 200.0)
    (first,) = said(plan, verdict, MISSED, mean_mm=190.0)
    assert first == (
        "First make sure. Count the beads in steps 13 to 18 (r): there should be 6. Leave out the last 2 beads, "
        "then count back: 6 Glass, then 8 more to the start. If one is missing because a step was marked twice, "
        "answer that the screen is ahead."
    )
    (more,) = said(plan, verdict, replace(MISSED, kind="bead too many"), mean_mm=210.0)
    assert more.endswith("If there is one more because a step was not marked, answer that the screen is behind.")


def test_a_doubtful_reading_is_measured_again_first_and_x_is_for_the_latest_alone() -> None:
    plan = longstone()
    piece, outlook = measured(plan, (11, 3 + 7 / 16), AN_INCH_TOO_MUCH)
    assert outlook.verdict == "measure again"
    (strand,) = ways_lines(plan, piece, outlook, False, KEYS)
    assert strand == "First measure the strand again (m). If the reading was a slip, take it out (x)."
    cord = Measured("free", 16, plan.strands[0].steps[15].free_cord_mm, "", SIXTEENTH)
    also = replace(piece, readings=(*piece.readings, cord))
    (strand,) = ways_lines(plan, also, outlook, False, KEYS)  # x would take the cord's reading out
    assert strand == "First measure the strand again (m). If the reading was a slip, take reading 2 out (M, then 2)."


def test_an_old_doubtful_reading_hides_no_ways_out() -> None:
    """The readings after it speak against it: the ruler can tell no more of it, and the piece is too short."""
    plan = longstone()
    piece, outlook = measured(plan, *READ[:3], (18, 11.25), (18, 11.25), counted=True)
    slip = replace(outlook.misread, p=0.45)
    outlook = replace(outlook, faults=(slip, *(one for one in outlook.faults if one.kind != "misread")))
    assert outlook.verdict == "off"
    (told,) = ways_lines(plan, piece, outlook, True, KEYS)
    assert told == (
        "Reading 3 (strand 9 5/16 in after step 16) looks 3/16 in too long. If it was a slip, take reading 3 out "
        "(M, then 3)."
    )


def test_on_length_and_near_enough_nothing_needs_doing(plan) -> None:
    assert said(plan, "on plan", mean_mm=201.0, found=False) == ["On length. Nothing needs doing for the length."]
    assert said(plan, "off", mean_mm=180.0, found=False) == [
        "Nothing is left to change that would bring the length nearer."
    ]
    assert said(plan, "no target") == []


def test_on_length_with_a_bead_missing_it_can_be_brought_nearer(plan) -> None:
    (line,) = said(plan, "on plan", mean_mm=193.0, counted=(Recounted(18, 12, -1),))
    assert line.startswith("On length. As you counted, a bead is missing. On course for 193 ± ")
    assert line.endswith("7 mm under your 200 mm, within the 12 mm you allow. To bring it nearer:")


def test_at_the_prompt_it_is_the_count_that_is_ahead() -> None:
    plan = planned([*[G, K] * 25], 200.0)
    piece = Piece(plan.total_steps, 20)
    outlook = replace(forecast(plan, piece), verdict="recount", faults=(MISSED,))
    (first,) = ways_lines(plan, piece, outlook, True, KEYS, "count")
    assert first.endswith("because a step was marked twice, answer that the count is ahead.")


def test_a_join_alone_brings_no_length_nearer(plan) -> None:
    piece = Piece(plan.total_steps, 20)
    outlook = forecast(plan, piece)
    ways = {}
    for verdict, mean_mm in (("on plan", 193.0), ("off", 180.0)):
        there = replace(outlook, verdict=verdict, finished=replace(outlook.finished, mean_mm=mean_mm))
        (ways[verdict],) = ways_lines(plan, piece, there, True, KEYS, joins_alone=True)
    assert ways["on plan"].startswith("On length. On course for 193 ± ")
    assert ways["off"].startswith("Nothing is left to change that would bring the length nearer.")
    for told in ways.values():
        assert told.endswith(" Joining on lets the cord reach the end. It leaves the length as it is.")
        assert "To bring it nearer" not in told


def test_the_cord_is_told_first(plan) -> None:
    first, second = said(plan, "off", mean_mm=180.0, found=False, cord=CordCheck("scant", 0.08, None, 14.0))
    assert first.startswith("△ Tight: 8 %")
    assert second.startswith("Nothing is left")
