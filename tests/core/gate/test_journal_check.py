"""A journal that folds here is taken; one that can't have been written is refused at its first such event."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from companion.core.gate.journal_check import MOST_OTHERS, MOST_READINGS, Unlikely, fold_checked
from companion.core.journal.events import (
    Confirmed,
    Finished,
    Jumped,
    Measured,
    Noted,
    PutBack,
    Started,
    TakenOut,
    Undone,
)
from companion.core.journal.fold import fold
from companion.core.plan.planner import compile_plan
from companion.core.values.errors import NotPossible
from tests.core.random_designs import random_design

PLAN = compile_plan(random_design(3))
TOTAL = PLAN.total_steps
START = Started(TOTAL)


def refused(*events) -> tuple[int, str]:
    with pytest.raises(Unlikely) as error:
        fold_checked(PLAN, events)
    return error.value.number, str(error.value)


def test_what_was_done_here_is_taken() -> None:
    events = [START, Confirmed(1), Undone(0), Jumped(TOTAL), Measured("strand", 1, 20.0, "20 mm"), Noted(0, "so")]
    events.append(Finished(200.0))
    assert fold_checked(PLAN, events) == fold(events)


def test_the_start_is_the_first_event_and_the_only_one() -> None:
    assert refused()[0] == 0
    assert refused(Confirmed(1)) == (1, "a piece starts once, and that comes first")
    assert refused(START, START) == (2, "a piece starts once, and that comes first")
    assert refused(replace(START, total_steps=TOTAL + 1)) == (1, f"the plan has {TOTAL} steps")


def test_what_the_fold_refuses_is_refused_in_its_words() -> None:
    with pytest.raises(NotPossible) as error:
        fold([START, Confirmed(2)])
    assert refused(START, Confirmed(2)) == (2, str(error.value).removesuffix("."))


def test_a_screen_set_right_names_steps_of_the_piece_and_not_too_many() -> None:
    done = [START, *(Confirmed(number) for number in range(1, 4))]
    right = Jumped(2, ((3, 2),), (0, 2))
    assert fold_checked(PLAN, [*done, right]).done == 2
    for wrong in (Jumped(2, ((3, TOTAL + 1),)), Jumped(2, ((-2, 1),)), Jumped(2, ((3, 2),) * (2 * MOST_READINGS + 1))):
        assert refused(*done, wrong) == (5, "no such steps")


def test_a_finish_with_steps_left() -> None:
    assert refused(START, Finished()) == (2, "steps are left to do")


def test_more_than_a_piece_can_have_is_refused_before_it_is_folded() -> None:
    """Each of these events makes all the later ones dearer: without the bound a minute would not do."""
    notes = (Noted(0, "again") for _ in iter(int, 1))
    assert refused(START, *(next(notes) for _ in range(MOST_OTHERS))) == (
        MOST_OTHERS + 1,
        "there are more events than a piece can have",
    )
    reading = Measured("strand", 0, 0.0, "0 mm")
    number, why = refused(START, *[reading] * (MOST_READINGS + 1))
    assert (number, why) == (MOST_READINGS + 2, "there are more readings than a piece can have")


def test_readings_taken_out_and_put_back_are_those_that_are_there() -> None:
    read = Measured("strand", 1, 20.0, "20 mm")
    events = [START, Confirmed(1), read, TakenOut(1, read), PutBack(1, read), TakenOut(1, read)]
    assert fold_checked(PLAN, events) == fold(events)
    other = replace(read, typed="2 cm")
    assert refused(*events, PutBack(1, other)) == (7, "Reading 1 is another one now. Look at the list again")
    assert refused(*events, PutBack(2, read))[0] == 7
    assert refused(*events, TakenOut(1, read)) == (7, "Reading 1 is taken out already")


def test_no_more_readings_count_by_being_put_back_than_can_be_taken() -> None:
    reading = Measured("strand", 0, 0.0, "0 mm")
    full = [START, reading, TakenOut(1, reading), *[reading] * MOST_READINGS]
    assert refused(*full, PutBack(1, reading)) == (len(full) + 1, "there are more readings than a piece can have")
