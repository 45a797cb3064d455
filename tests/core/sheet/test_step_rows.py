"""Steps as rows of boxes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.plan.plan import Plan
from companion.core.sheet.step_rows import GROUP, StepRow, step_rows
from companion.core.words.step_words import step_sentence
from tests.core.sheet.shipped_plans import NAMES, random_plan, shipped


def all_rows(plan: Plan, entry: int, done: int = 0, stops=()) -> list[StepRow]:
    return list(step_rows(plan, entry, stops, done))


@given(st.integers(0, 10**6), st.data())
def test_read_from_the_first_box_to_the_last_a_row_says_each_step(seed: int, data) -> None:
    plan = random_plan(seed)
    done = data.draw(st.integers(0, plan.total_steps))
    for entry, strand in enumerate(plan.strands):
        stops = data.draw(st.sets(st.integers(1, len(strand.steps)), max_size=5))
        rows = all_rows(plan, entry, done, stops)
        assert {plan.piece_step(entry, stop) for stop in stops} <= {row.last for row in rows}
        assert [text for row in rows for text in row.texts * row.times] == [step_sentence(one) for one in strand.steps]
        numbers = [number for row in rows for number in range(row.first, row.last + 1)]
        assert numbers == [plan.piece_step(entry, step.number) for step in strand.steps]
        assert all(sum(row.groups) == row.boxes for row in rows)
        begun = plan.piece_step(entry, 0)
        assert sum(row.done for row in rows) == min(max(0, done - begun), len(strand.steps))
        assert all(row.done == max(0, min(done, row.last) - row.first + 1) for row in rows)


@pytest.mark.parametrize("name", NAMES)
def test_the_beads_of_a_row_are_those_on_the_strand_after_it(name: str) -> None:
    plan = shipped(name)
    for entry, strand in enumerate(plan.strands):
        for row in all_rows(plan, entry):
            last = plan.place(row.last)[1]
            assert row.beads == sum(len(step.beads) for step in strand.steps if step.number <= last)


def test_equal_steps_stand_in_fives() -> None:
    row = next(row for row in all_rows(shipped("longstone-necklace"), 0) if row.times == 13)
    assert row.texts == ("4 Grey pearls, then a single knot.",)
    assert row.groups == (GROUP, GROUP, 3)


def test_steps_that_repeat_together_stand_together() -> None:
    rows = all_rows(shipped("inner-farne-strands"), 2)
    row = next(row for row in rows if len(row.texts) > 1)
    assert row.texts == ("Sand oval, then a single knot.", "Foam pearl, then a single knot.")
    assert set(row.groups) == {2}


def test_a_repeat_that_a_ruler_check_cuts_is_finished_before_the_next_ones() -> None:
    rows = all_rows(shipped("bell-rock-rope"), 0, stops=[18])
    red, white = "Red granite, then a single knot.", "White granite, then a single knot."
    assert [(row.first, row.texts, row.times, row.groups) for row in rows[3:9]] == [
        (4, (red, red, red, red, red, white), 2, (5, 1, 5, 1)),
        (16, (red,), 3, (3,)),
        (19, (red,), 2, (2,)),
        (21, (white,), 1, (1,)),
        (22, (red, red, red, red, red, white), 33, (5, 1) * 33),
        (220, rows[8].texts, 1, (1,)),
    ]


def test_each_step_at_an_end_has_a_row_of_its_own() -> None:
    plan = shipped("wolf-rock-necklace")
    for entry, strand in enumerate(plan.strands):
        alone = {row.first for row in all_rows(plan, entry) if row.boxes == 1}
        assert {plan.piece_step(entry, step.number) for step in strand.steps if step.kind != "string"} <= alone
