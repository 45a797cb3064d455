"""What `next` says of length and cord: an alarm once, though every command is a process of its own."""

from __future__ import annotations

import pytest

ALARM = "Warning: "


def steps(tallycord, count: int) -> list[str]:
    return [tallycord("next").out for _ in range(count)]


def test_a_warning_is_said_by_the_reading_and_not_after_every_step(tallycord, piece) -> None:
    assert ALARM in tallycord("measure", "3 1/16 in").out
    after = steps(tallycord, 8)
    assert [out for out in after if ALARM in out] == []


def test_a_cord_that_will_not_reach_is_said_at_the_first_step_and_no_more(tallycord, skerry) -> None:
    tallycord("start", skerry, "--cut", "24 in")
    first, *after = steps(tallycord, 16)
    assert ALARM in first
    assert [out for out in after if ALARM in out] == []


def test_what_an_act_changes_is_said_by_it(tallycord, piece) -> None:
    tallycord("measure", "3 1/16 in")
    over = tallycord("undo").out
    assert ALARM not in over
    assert "On length." in over
    assert ALARM in tallycord("redo").out  # it is back
    assert ALARM not in tallycord("note", "so it is").out
    assert ALARM not in tallycord("next").out


def test_the_ruler_is_asked_for_once(tallycord, skerry) -> None:
    tallycord("start", skerry)
    said = [out.splitlines()[3:] for out in steps(tallycord, 24)]
    asked = [lines for lines in said if lines]
    assert asked
    assert all("uler" in " ".join(lines) or "easure" in " ".join(lines) for lines in asked)
    assert len(asked) <= 4  # at one step each, not from one on


@pytest.mark.parametrize("count", [1, 5])
def test_status_still_tells_all_of_it(tallycord, piece, count) -> None:
    tallycord("measure", "3 1/16 in")
    steps(tallycord, count)
    assert ALARM in tallycord("status").out
