"""rename on the command line."""

from __future__ import annotations

import pytest


def test_a_piece_is_renamed_and_found_by_its_new_name(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    ran = tallycord("rename", name, "For", "Anna")
    assert (ran.code, ran.out) == (0, "skerry-bracelet is now named For Anna.\n")
    assert tallycord("next", "for-anna").code == 0
    assert '"piece": "For Anna"' in tallycord("pieces", "--json").out
    assert "Renamed: skerry-bracelet is now For Anna." in tallycord("journal", "For Anna").out
    assert tallycord("undo", "For Anna").code == 0  # the step
    assert "new name" in tallycord("undo", "For Anna").out
    assert tallycord("status", "For Anna").code == 1
    assert tallycord("status", "skerry-bracelet").code == 0


def test_two_names_alike_are_refused_in_words(tallycord, skerry) -> None:
    tallycord("rename", tallycord("start", skerry).out.strip(), "For Anna")
    other = tallycord("start", skerry).out.strip()
    ran = tallycord("rename", other, "for anna")
    assert (ran.code, ran.err) == (1, "Another piece is named For Anna. Give this one a name of its own.\n")


@pytest.mark.parametrize("name", ["12", "3 in", "…", "x" * 60])
def test_what_can_be_no_name_is_wrong_usage(tallycord, skerry, name) -> None:
    ran = tallycord("rename", tallycord("start", skerry).out.strip(), name)
    assert ran.code == 2
    assert ran.err.endswith(".\n")
