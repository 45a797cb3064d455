"""next, back, jump and note."""

from __future__ import annotations

import pytest

from tests.cli.running import journal, steps_made


def test_jump_and_note(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    assert "Steps 1 to 23 count as done. 23 of 33" in tallycord("jump", name, 23).out
    assert "Steps 6 and later are undone" in tallycord("jump", name, 5).out
    assert "23 of 33" in tallycord("back", name).out
    assert tallycord("note", name, "knots", "looser", "today").code == 0
    assert "Note: knots looser today" in tallycord("journal", name).out
    assert tallycord("jump", name, 34).code == 2
    assert tallycord("abandon", name, "gave it away").code == 0
    assert tallycord("next", name).code == 1
    assert tallycord("back", name).code == 0
    assert tallycord("next", name).code == 0


def test_a_jump_to_where_the_work_stands_is_no_event(tallycord, skerry) -> None:
    name = tallycord("start", skerry).out.strip()
    tallycord("jump", name, 13)
    assert "Nothing moved" in tallycord("jump", name, 13).out
    tallycord("back", name)
    assert steps_made(tallycord)[0] == 0


def test_the_step_meant_can_be_said_so_that_nothing_counts_twice(tallycord, piece) -> None:
    assert tallycord("next", piece, "--step", 17).code == 0
    again = tallycord("next", piece, "--step", 17)
    assert again.code == 1
    assert "17 of 33 are done" in again.err
    assert tallycord("next", piece, "--step", "x").code == 2


@pytest.mark.parametrize("text", [[""], [" ", "\t"], ["\x1b\x07"], ["\u202e"]])
def test_a_note_of_nothing_is_refused(tallycord, piece, text) -> None:
    ran = tallycord("note", piece, *text)
    assert ran.code == 2
    assert "at least a word" in ran.err
    assert len(journal(tallycord, piece)) == 2


def test_typed_words_are_only_text(tallycord, piece) -> None:
    assert tallycord("note", piece, "red \x1b[31m\u202e\nend").code == 0
    assert journal(tallycord, piece)[-1] == "Note: red [31m end"
    assert tallycord("abandon", piece, "lost\x07 it").code == 0
    assert journal(tallycord, piece)[-1] == "Put away. lost it"
    ran = tallycord("status", "\x1b[31m" + piece)
    assert ran.code == 1
    assert "\x1b" not in ran.err
