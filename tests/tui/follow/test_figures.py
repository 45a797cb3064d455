"""The quiet corners of the follow screen, at any width."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from rich.cells import cell_len

from companion.core.journal.pace import Pace
from companion.tui.follow.figures import coming, four_figures, heading_line, time_left
from companion.workshop import OpenPiece


@pytest.fixture
def opened(workshop, skerry) -> OpenPiece:
    return workshop.jump(workshop.start(skerry), 15)


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (None, ""),
        (0.0, ""),
        (60.0, "about a minute"),
        (12 * 60.0, "about 12 min"),
        (43 * 60.0, "about 45 min"),
        (100 * 60.0, "about 1.7 h"),
    ],
)
def test_the_time_left_is_told_as_roughly_as_it_is_known(seconds, words) -> None:
    assert time_left(Pace(30.0, seconds)) == words


@pytest.mark.parametrize("width", [40, 58, 78, 118])
def test_the_heading_fills_its_line(opened, width) -> None:
    line = heading_line(opened, Pace(30.0, 600.0), width).plain
    assert cell_len(line) == width
    assert line.startswith("Skerry")
    assert "step 16 of 33" in line
    assert ("about 10 min" in line) == (width >= 70)


def test_the_heading_names_the_strand_where_there_are_several(workshop, patterns) -> None:
    opened = workshop.start(patterns / "inner-farne-strands.yaml")
    assert (
        f"{opened.plan.strands[0].label} · step 1 of {opened.plan.total_steps}"
        in heading_line(opened, Pace(None, None), 78).plain
    )


@pytest.mark.parametrize("width", [58, 78, 118])
def test_the_four_figures_stand_in_two_columns(workshop, opened, width) -> None:
    top, bottom = four_figures(opened, workshop.outlook(opened), width).plain.splitlines()
    assert top.index("leftover") == bottom.index("cord")
    assert (" mm" in top) == (width >= 70)
    assert max(len(top), len(bottom)) <= width


@pytest.mark.parametrize("width", [58, 78, 118])
def test_a_length_that_may_turn_out_either_way_is_marked_and_nothing_moves(workshop, opened, width) -> None:
    outlook = workshop.outlook(opened)
    calm, watched, off = (
        four_figures(opened, replace(outlook, verdict=verdict), width).plain.splitlines()
        for verdict in ("on plan", "watch", "off")
    )
    assert watched[1].startswith("finishes △  ")
    assert watched == [calm[0], calm[1].replace("finishes at ", "finishes △  ")]
    assert off == calm


def test_what_comes_after_ends_with_the_piece_and_with_the_room(opened) -> None:
    plan = opened.plan
    before = sum(step.kind == "start" for step in plan.strands[0].steps)
    assert coming(plan, before - 1, 78).plain == "After that: knot · G knot · G knot · G knot · G knot"
    assert coming(plan, before - 1, 30).plain == "After that: knot · G knot"
    assert coming(plan, 0, 78).plain == "After that: begin · knot · G knot"
    assert coming(plan, plan.total_steps - 4, 78).plain == "After that: close"
    assert coming(plan, plan.total_steps - 2, 78).plain == "After that: close"
    assert coming(plan, plan.total_steps - 1, 78).plain == ""
