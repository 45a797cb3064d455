"""All readings in words, a line each."""

from __future__ import annotations

import pytest

from companion.core.forecast.reading_list import ListedReading
from companion.core.journal.events import Measured
from companion.core.words.measured.reading_list_words import STATES, expected_there, reading_line, reading_named
from tests.core.forecast.test_counting import plan_of

PLAN = plan_of(30)
TWO = plan_of(4, 5)
READ = Measured("strand", 9, 60.0, "60 mm")


@pytest.mark.parametrize(
    ("plan", "reading", "words"),
    [
        (PLAN, READ, "strand 60 mm after step 9"),
        (PLAN, Measured("free", 9, 310.0, "31 cm"), "leftover cord 310 mm after step 9"),
        (PLAN, Measured("free", 0, 700.0, "70 cm"), "leftover cord 700 mm before the first step"),
        (TWO, Measured("strand", TWO.piece_step(1, 3), 9.0, ""), "strand 9 mm after step 12"),
        (PLAN, Measured("strand", 99, 60.0, ""), "strand 60 mm after step 99"),  # left behind; the steps are fewer now
    ],
)
def test_how_a_reading_is_named(plan, reading, words) -> None:
    assert reading_named(plan, reading) == words


@pytest.mark.parametrize(
    ("planned", "believed", "words"),
    [
        (64.0, None, "Expected by the plan: 64 mm. It was 4 mm less."),
        (60.1, None, "Expected by the plan: 60 mm. It was as expected."),
        (64.0, 57.5, "Expected by your earlier readings: 57.5 mm (by the plan 64 mm). It was 2.5 mm more."),
        (64.0, 64.1, "Expected by your earlier readings and by the plan: 64 mm. It was 4 mm less."),
        (None, None, ""),
    ],
)
def test_it_is_said_what_was_expected_and_by_what(planned, believed, words) -> None:
    assert expected_there(PLAN, ListedReading(2, READ, "counts", planned, believed)) == words


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ("counts", "It counts."),
        ("set aside", "It is set aside: it doesn't fit the others."),
        ("taken out", "You took it out."),
        ("left behind", "You went back past that step, so it no longer counts."),
    ],
)
def test_a_whole_line(state, words) -> None:
    number = None if state == "left behind" else 2
    told = reading_line(PLAN, ListedReading(number, READ, state, None if number is None else 64.0), "2026-12-01 18:10")
    first = "strand 60 mm after step 9, 2026-12-01 18:10."
    assert told == (
        f"2: {first} Expected by the plan: 64 mm. It was 4 mm less. {words}" if number else f"{first} {words}"
    )


def test_no_two_states_look_alike() -> None:
    assert len({words.mark for words in STATES.values()}) == len({words.said for words in STATES.values()}) == 4
