"""Pages to read: how the coming knot is tied, and what to mind."""

from __future__ import annotations

import pytest

from companion.core.words.trade.cautions import cautions
from companion.tui.follow.pages import cautions_page, lore_page, next_knot
from companion.workshop import Workshop


@pytest.fixture
def plan(workshop: Workshop, skerry):
    return workshop.start(skerry).plan


def test_the_knot_that_comes_next_and_none_after_the_last(plan) -> None:
    knots = [plan.strands[0].steps[number].knot for number in range(plan.total_steps)]
    last = max(number for number, knot in enumerate(knots) if knot)
    assert next_knot(plan, 0) == next(knot for knot in knots if knot)
    assert next_knot(plan, last) == knots[last]
    assert next_knot(plan, plan.total_steps) is None


def test_mistakes_without_room_are_left_out_whole(plan) -> None:
    whole = lore_page(plan, "double", 44).plain.splitlines()
    for rows in range(len(whole)):
        shown = lore_page(plan, "double", 44, rows).plain.splitlines()
        assert shown == whole[: len(shown)]
        assert all(line.startswith("·") for line in whole[len(shown) :][:1] if line)
    assert all(len(line) <= 44 for line in whole if line.startswith(("·", " ")) and "─" not in line)


def test_each_caution_is_a_paragraph(plan) -> None:
    assert cautions_page(plan).plain.split("\n\n") == [caution.text for caution in cautions(plan)]
