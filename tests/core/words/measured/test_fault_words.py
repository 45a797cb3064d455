"""What may have gone wrong, in words."""

from __future__ import annotations

from typing import get_args

import pytest
from msgspec.structs import replace

from companion.core.forecast.faults.hypotheses import FaultKind
from companion.core.forecast.outlook import Fault
from companion.core.journal.piece import Piece
from companion.core.words.measured.fault_words import FAULT_WORDS, fault_words, misread_notice, odds, recount_notice
from tests.core.forecast.test_counting import plan_of
from tests.core.outlooks import forecast
from tests.core.remedies.off_plan import G, K, planned

MISSED = Fault("bead missed", 0.8, 0, 13, 18)
MEASURED = "Your 138 mm after step 18 is 5.5 mm less than expected: too much to be the ruler."
MISREAD = Fault("misread", 0.75, 0, 18, 18, "strand", 7.0)


@pytest.fixture
def plan():
    return planned([*[G, K] * 25], 200.0)


def seen(plan, *faults):
    return replace(forecast(plan, Piece(plan.total_steps, 18)), faults=faults)


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (MISSED, "A bead was missed, steps 13 to 18 (80 %)."),
        (replace(MISSED, from_step=18), "A bead was missed, step 18 (80 %)."),
        (Fault("cut shorter", 0.999, 0, 1, 18), "The cord is shorter than was entered (over 99 %)."),
        (
            Fault("tension drifting", 0.004, 0, 1, 18),
            "Your tension has slowly changed since you began (under 1 %).",
        ),
    ],
)
def test_a_fault_with_its_chance_and_its_steps(plan, fault, words) -> None:
    assert fault_words(plan, fault) == words


def test_the_steps_of_a_later_strand_are_told_by_their_numbers_in_the_whole_piece() -> None:
    plan = plan_of(4, 30)
    first, last = plan.piece_step(1, 13), plan.piece_step(1, 18)
    assert fault_words(plan, replace(MISSED, entry=1)) == f"A bead was missed, steps {first} to {last} (80 %)."


def test_every_kind_of_fault_has_its_words() -> None:
    assert set(FAULT_WORDS) == set(get_args(FaultKind))


def test_a_miscount_says_where_to_count(plan) -> None:
    count = "Count the beads in steps 13 to 18 (r): there should be 6."
    notice = recount_notice(seen(plan, MISSED), count, MEASURED)
    assert notice.headline == "You may be a bead short (about 4 to 1)."
    assert (notice.detail, notice.action) == ("", count)
    also = recount_notice(seen(plan, MISSED, replace(MISREAD, p=0.16)), count, MEASURED, " (m)")
    assert also.action == f"{count} Or the ruler slipped: measure again (m)."


def test_no_cause_is_told_that_is_hardly_likely(plan) -> None:
    """What was measured is told instead, and what to do about it."""
    count = "Count the beads in steps 13 to 18 (r): there should be 6."
    notice = recount_notice(seen(plan, replace(MISSED, p=0.2)), count, MEASURED)
    assert (notice.level, notice.headline, notice.detail) == ("watch", "A reading does not fit.", MEASURED)
    assert notice.action == count
    poor = replace(MISREAD, p=0.2)
    again = misread_notice(plan, seen(plan, poor, replace(MISSED, p=0.2)), poor)
    assert again.headline == "Your reading of the strand after step 18 does not fit what was expected."
    assert again.action == "Measure again."


def test_a_misreading_says_which_reading_and_how_far_off(plan) -> None:
    notice = misread_notice(plan, seen(plan, MISREAD), MISREAD)
    looks = "Your reading of the strand after step 18 looks 7 mm too long (about 3 to 1)."
    assert notice.text == f"{looks} Measure again."
    free = replace(MISREAD, detail="free", off_mm=-12.0)
    with_miscount = misread_notice(plan, seen(plan, free, replace(MISSED, p=0.35)), free)
    assert (
        with_miscount.headline
        == "Your reading of the leftover cord after step 18 looks 12 mm too short (about 3 to 1)."
    )
    assert with_miscount.detail == "Or you are a bead short: one more reading will tell."


ODDS = {
    0.97: "almost certainly",
    0.8: "about 4 to 1",
    0.65: "about 2 to 1",
    0.5: "50 % likely",
    0.001: "under 1 % likely",
}


@pytest.mark.parametrize(("p", "said"), ODDS.items())
def test_odds_as_makers_say_them(p, said) -> None:
    assert odds(p) == said
