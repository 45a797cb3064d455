"""A strip of a piece's own beads: each of them where there is room, and as much of it solid as is done."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.picture.colours import COLOUR_WORDS
from companion.core.picture.strip import MOST_BEADS, BeadStrip, bead_strip
from companion.workshop import open_at
from tests.conftest import REPO

RED, BLUE = COLOUR_WORDS["red"], COLOUR_WORDS["blue"]


def text(strip: BeadStrip, columns: int, steps_done: int | None = None) -> str:
    return "".join(cell.letter for cell in strip.cells(columns, steps_done))


def plan_of(data_folder, name: str):
    return open_at(data_folder).plan(REPO / "patterns" / f"{name}.yaml").plan


def test_each_bead_of_a_short_piece_is_there(data_folder) -> None:
    plan = plan_of(data_folder, "skerry-bracelet")
    strip = bead_strip(plan)
    assert text(strip, 30) == "GGGGGGGGGGSGSGGGGGGGGGG"
    assert {cell.colour for cell in strip.cells(30)} == {COLOUR_WORDS["teal"], COLOUR_WORDS["silver"]}
    for done in range(plan.total_steps + 1):
        on = sum(len(step.beads) for step in plan.strands[0].steps[:done])
        cells = strip.cells(30, done)
        assert sum(cell.made for cell in cells) == on
        assert [cell.form for cell in cells] == ["●"] * on + ["○"] * (23 - on)
        assert text(strip, 30, done)[on:].islower() or on == 23


def test_of_a_long_piece_the_first_beads_are_there_and_the_share_that_is_done(data_folder) -> None:
    plan = plan_of(data_folder, "bell-rock-rope")
    strip = bead_strip(plan)
    assert text(strip, 12) == "RRRRRWRRRRRW"
    half = next(n for n, on in enumerate(strip.after_step) if on == 108)
    assert text(strip, 12, half) == "RRRRRWrrrrrw"
    assert len(strip.beads) == MOST_BEADS
    assert strip.all_beads == 216


@pytest.mark.parametrize("design", sorted(path.stem for path in (REPO / "patterns").glob("*.yaml")))
def test_with_the_last_step_all_beads_are_on(data_folder, design) -> None:
    plan = plan_of(data_folder, design)
    strip = bead_strip(plan)
    assert len(strip.after_step) == plan.total_steps + 1
    assert strip.after_step[-1] == strip.all_beads
    assert all(cell.made for cell in strip.cells(60))


def test_strands_come_one_after_another(data_folder) -> None:
    strip = bead_strip(plan_of(data_folder, "inner-farne-strands"))
    assert text(strip, 60) == "F" * 46 + "W" * 14
    assert strip.after_step[-1] == strip.all_beads == 126


@given(st.integers(0, 80), st.lists(st.integers(0, 3), min_size=0, max_size=60), st.integers(-5, 80))
def test_never_wider_than_there_is_room_nor_more_made_than_there_is(columns, steps, done) -> None:
    after = [0]
    for beads in steps:
        after.append(after[-1] + beads)
    strip = BeadStrip(
        (("R", RED), ("B", BLUE)) * (after[-1] // 2) + (("R", RED),) * (after[-1] % 2), after[-1], tuple(after)
    )
    cells = strip.cells(columns, max(0, done))
    assert len(cells) == min(columns, after[-1])
    made = [cell.made for cell in cells]
    assert made == sorted(made, reverse=True)
    assert all(made) or max(0, done) < len(steps)


@pytest.mark.parametrize("columns", [0, -3])
def test_without_room_there_is_nothing(columns) -> None:
    assert BeadStrip((("R", RED),), 1, (0, 1)).cells(columns) == ()
