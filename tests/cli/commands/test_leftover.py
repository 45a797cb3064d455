"""What is left of the cord, a line at a time: asked for before the tails are trimmed, and told in the result."""

from __future__ import annotations

import pytest

from companion.core.plan.leftover import trimming_step
from companion.workshop import open_at

ASKED = "Before you trim, measure what is left of the cord past the closure"


@pytest.fixture
def before_trimming(tallycord, skerry) -> str:
    """A piece with the step before the trimming still to do."""
    name = tallycord("start", skerry).out.strip()
    tallycord("jump", name, trimming_step(open_at().open(name).plan) - 2)
    return name


def test_it_is_asked_for_when_the_trimming_comes_next_and_not_once_it_is_measured(tallycord, before_trimming) -> None:
    assert ASKED not in tallycord("status", before_trimming).out
    assert ASKED in tallycord("next", before_trimming).out
    assert ASKED in tallycord("status", before_trimming).out
    tallycord("measure", before_trimming, "--free", "8 in")
    assert ASKED not in tallycord("status", before_trimming).out


def test_a_tail_measured_once_it_is_trimmed_is_not_what_was_left(tallycord, before_trimming) -> None:
    tallycord("next", before_trimming)
    tallycord("measure", before_trimming, "--free", "8 in")
    tallycord("next", before_trimming)
    tallycord("measure", before_trimming, "--free", "1/4 in")
    tallycord("jump", before_trimming, 33)
    tallycord("finish", before_trimming, "202 mm")
    assert "left      8 in of each cord, worth keeping" in tallycord("status", before_trimming).out


@pytest.mark.parametrize("scrap", ["5 in", "9 in"])
def test_the_result_says_whether_it_is_worth_keeping(tallycord, before_trimming, scrap) -> None:
    tallycord("jump", before_trimming, 33)
    assert tallycord("finish", before_trimming, "202 mm", "--left", "8 in").code == 0
    tallycord("settings", "scrap", scrap)
    assert ("worth keeping" in tallycord("status", before_trimming).out) == (scrap == "5 in")


def test_what_was_used_is_not_told_where_the_other_side_was_not_measured(tallycord, patterns) -> None:
    """Worked from the middle: one cord, two tails, and only the last one is measured."""
    name = tallycord("start", patterns / "wolf-rock-necklace.yaml").out.strip()
    tallycord("jump", name, "second:27")
    tallycord("finish", name, "16 1/2 in", "--left", "6 in")
    told = tallycord("status", name).out
    assert "left" in told
    assert "(second side)" in told
    assert "used" not in told


def test_no_leftover_is_asked_for_or_taken_once_the_tails_are_trimmed(tallycord, before_trimming) -> None:
    assert "Measure from the closure to the end of the tail." in tallycord("measure", before_trimming).out
    tallycord("jump", before_trimming, 33)
    assert "leftover" not in tallycord("measure", before_trimming).out
    assert "leftover" not in tallycord("status", before_trimming).out
    for how in ((), ("--anyway",)):
        ran = tallycord("measure", before_trimming, "--free", "1/4 in", *how)
        assert (ran.code, ran.out) == (1, "")
        assert "The tails are trimmed" in ran.err
