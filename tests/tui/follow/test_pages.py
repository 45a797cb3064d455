"""Pages to read: how the coming knot is tied, and what to mind."""

from __future__ import annotations

import pytest

from companion.core.words.trade.cautions import cautions
from companion.core.words.trade.knot_lore import lore, lore_at
from companion.tui.follow.pages import cautions_page, lore_page, next_lore
from companion.workshop import Workshop


@pytest.fixture
def plan(workshop: Workshop, skerry):
    return workshop.start(skerry).plan


def test_the_knot_that_comes_next_and_none_after_the_last(plan) -> None:
    steps = plan.strands[0].steps
    last = max(step.number for step in steps if step.knot)
    first = next(step for step in steps if step.knot)
    assert next_lore(plan, 0) == lore_at(plan, 0, first)
    assert next_lore(plan, last - 1) == lore_at(plan, 0, steps[last - 1])
    assert next_lore(plan, last) is None
    assert next_lore(plan, plan.total_steps) is None


def test_mistakes_without_room_are_left_out_whole() -> None:
    told = lore("double", "awl", 2)
    whole = lore_page(told, 44).plain.splitlines()
    for rows in range(len(whole)):
        shown = lore_page(told, 44, rows).plain.splitlines()
        assert shown == whole[: len(shown)]
        assert all(line.startswith("·") for line in whole[len(shown) :][:1] if line)
    assert all(len(line) <= 44 for line in whole if line.startswith(("·", " ")) and "─" not in line)


def test_each_caution_is_a_paragraph(plan) -> None:
    assert cautions_page(plan).plain.split("\n\n") == [caution.text for caution in cautions(plan)]
