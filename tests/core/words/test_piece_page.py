"""The plan at hand agrees with the result, and a design or a piece is told in a few words."""

from __future__ import annotations

import pytest

from companion.core.words.piece_page import design_page, in_short, piece_page
from companion.core.words.result_words import result_lines
from companion.workshop import Workshop, open_at


@pytest.fixture
def workshop(data_folder) -> Workshop:
    return open_at(data_folder)


def page(workshop: Workshop, opened) -> str:
    outlook = workshop.outlook(opened) if opened.piece.readings else None
    return "\n".join(line.text for line in piece_page(opened.plan, opened.piece, (), None, outlook))


def test_what_was_joined_on_stands_on_the_plan_page_and_in_the_result(workshop, skerry) -> None:
    opened = workshop.join(workshop.jump(workshop.start(skerry), 15), 100.0, "100 mm")
    assert "you joined on 3 15/16 in of each cord" in page(workshop, opened)
    done = workshop.finish(workshop.jump(opened, 33), 203.0, 100.0, None)
    result = result_lines(done.plan, done.began_with, done.piece, workshop.worked(done), 100.0, 150.0)
    assert any("joined on 3 15/16 in of each cord" in line.text for line in result)


@pytest.mark.parametrize("read", [True, False])
def test_a_finished_piece_says_how_long_it_came_out(workshop, skerry, read) -> None:
    opened = workshop.jump(workshop.start(skerry), 15)
    opened = workshop.measure(opened, "strand", 82.0, "82 mm") if read else opened
    assert ("on course for" in page(workshop, opened)) == read
    done = workshop.finish(workshop.jump(opened, 33), 203.2, None, None)
    told = page(workshop, done)
    assert "Planned as 7 15/16 in (202 mm) long when closed; it came out at 8 in." in told
    assert "on course" not in told


def test_a_design_is_told_in_short(workshop, patterns, skerry) -> None:
    told = in_short(workshop.plan(skerry).plan)
    assert told.kind == "wrist 6 1/2 in, clasp"
    assert told.whole == ("7 15/16 in (202 mm) long when closed. Twisted silk 0.45 mm, doubled. Bead tip and clasp.")
    for design in sorted(patterns.glob("*.yaml")):
        told = in_short(workshop.plan(design).plan)
        assert told.kind[0].islower() or told.kind[0].isdigit()
        assert told.whole.count(". ") >= 2


def test_the_plan_of_a_design_marks_no_step(workshop, skerry) -> None:
    lines = [line.text for line in design_page(workshop.plan(skerry).plan)]
    assert not any(mark in line for line in lines for mark in ("✓", "▸"))
    assert any(line.startswith(" 1  ") for line in lines)
    assert "Journal" not in lines
